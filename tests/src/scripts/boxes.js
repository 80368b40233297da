// What is wrong with the page as it is laid out now, in words: things out of the window, cut off, over each other, too
// small to read or to hit, too faint. What nobody sees is left out.
// One dialog at most stands over the page, and is then looked at alone; else the page is looked at from its end, where
// what stays at the lower edge of the window has a place of its own.
const [leastContrast, leastInk] = arguments;
const whole = document.querySelector("dialog:modal") ?? document.body;
scrollTo({ top: document.documentElement.scrollHeight, behavior: "instant" });
// What stays at the upper edge lies over what has gone under it, and is meant to: it is looked at in its own place.
const staying = [...whole.querySelectorAll("*")].filter((element) => {
  const style = getComputedStyle(element);
  return style.position === "sticky" && style.top !== "auto";
});
for (const element of staying) element.style.position = "relative", element.style.top = "auto";
const found = [];
const say = (what, element, more) => {
  const box = element.getBoundingClientRect();
  const words = (element.getAttribute?.("aria-label") || element.textContent || "").replace(/\s+/g, " ").trim().slice(0, 40);
  const where = `${Math.round(box.left)},${Math.round(box.top)} ${Math.round(box.width)}x${Math.round(box.height)}`;
  found.push(`${what}: ${element.tagName.toLowerCase()}.${element.getAttribute?.("class") ?? ""} "${words}" at ${where}${more ? ` (${more})` : ""}`);
};
const root = document.documentElement;
const wide = root.clientWidth;
if (root.scrollWidth > wide) found.push(`the page is ${root.scrollWidth} px wide in a window of ${wide}`);

const seen = (element) => {
  if (element.checkVisibility && !element.checkVisibility({ visibilityProperty: true, opacityProperty: true })) return false;
  // Only for the ear, or a store of outlines.
  for (let at = element; at; at = at.parentElement) {
    const style = getComputedStyle(at);
    if (style.clipPath.startsWith("inset(50%")) return false;
    if (style.overflow === "hidden" && (at.clientWidth === 0 || at.clientHeight === 0)) return false;
  }
  return true;
};
const all = [...whole.querySelectorAll("*")].filter(seen);
const isSvg = (element) => element.namespaceURI.endsWith("svg");

// What runs sideways under the finger may lie beside the window; what is then not seen of it is left out.
const strip = (element) => {
  for (let at = element.parentElement; at && at !== document.body; at = at.parentElement) {
    if (["auto", "scroll"].includes(getComputedStyle(at).overflowX)) return at;
  }
  return null;
};
const beside = (element, box) => {
  const around = strip(element)?.getBoundingClientRect();
  return around && (box.right <= around.left || box.left >= around.right);
};
// A small panel of the browser lies over the page, and is meant to.
const layer = (element) => element.closest(":popover-open");

// Every line of text with its box.
const texts = [];
for (const element of all) {
  if (isSvg(element) || element.tagName === "OPTION" || element.tagName === "OPTGROUP") continue;
  for (const node of element.childNodes) {
    if (node.nodeType !== Node.TEXT_NODE || !node.data.trim()) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const box of range.getClientRects()) if (box.width > 0.5 && !beside(element, box)) texts.push({ element, box });
  }
}
const controls = all.filter((element) => element.matches("button, input, select, summary, textarea") && !beside(element, element.getBoundingClientRect()));

// Out of the window, or cut off by what is around.
for (const { element, box } of texts) {
  if (!strip(element) && (box.left < -0.5 || box.right > wide + 0.5)) say("text out of the window", element);
  for (let at = element; at && at !== document.body; at = at.parentElement) {
    const style = getComputedStyle(at);
    if (style.overflowX === "visible" && style.overflowY === "visible") continue;
    const around = at.getBoundingClientRect();
    const scrolls = (way) => ["auto", "scroll"].includes(way);
    if (!scrolls(style.overflowX) && (box.left < around.left - 1 || box.right > around.right + 1)) say("text cut off", element);
    if (!scrolls(style.overflowY) && (box.top < around.top - 1 || box.bottom > around.bottom + 1)) say("text cut off", element);
  }
}
for (const element of controls) {
  const box = element.getBoundingClientRect();
  if (!strip(element) && (box.left < -0.5 || box.right > wide + 0.5)) say("control out of the window", element);
}
// What a list or a field says must have room in it; a line that the reader types may be longer than its field.
const pen = document.createElement("canvas").getContext("2d");
for (const element of controls) {
  const style = getComputedStyle(element);
  const room = element.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
  pen.font = `${style.fontStyle} ${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  const fits = (text) => pen.measureText(text).width <= room + 0.5;
  if (element.tagName === "SELECT" && !fits(element.selectedOptions[0]?.text ?? "")) {
    say("list too narrow", element, `"${element.selectedOptions[0].text}" in ${Math.round(room)} px`);
  }
  if (element.tagName === "INPUT" && element.type === "number" && !fits(element.value)) say("field too narrow", element);
  if (element.tagName === "INPUT" && !element.value && !fits(element.placeholder)) say("hint too long for its field", element);
}

// Over each other. Lines of text are taken a little lower than their boxes, which are higher than letters.
const cross = (one, two, slack) =>
  Math.min(one.right, two.right) - Math.max(one.left, two.left) > slack &&
  Math.min(one.bottom, two.bottom) - Math.max(one.top, two.top) > slack;
const kin = (one, two) => one.contains(two) || two.contains(one) || layer(one) !== layer(two);
const ink = (box) => ({ left: box.left, right: box.right, top: box.top + box.height * 0.22, bottom: box.bottom - box.height * 0.22 });
for (let one = 0; one < texts.length; one += 1) {
  for (let two = one + 1; two < texts.length; two += 1) {
    const [first, second] = [texts[one], texts[two]];
    if (first.element !== second.element && layer(first.element) === layer(second.element) && cross(ink(first.box), ink(second.box), 1)) {
      say("text over text", first.element, `and "${second.element.textContent.trim().slice(0, 30)}"`);
    }
  }
}
for (let one = 0; one < controls.length; one += 1) {
  const box = controls[one].getBoundingClientRect();
  for (let two = one + 1; two < controls.length; two += 1) {
    if (!kin(controls[one], controls[two]) && cross(box, controls[two].getBoundingClientRect(), 0.5)) {
      say("control over control", controls[one], `and ${controls[two].getAttribute("aria-label") || controls[two].textContent.slice(0, 30)}`);
    }
  }
  for (const text of texts) {
    if (!kin(controls[one], text.element) && cross(box, ink(text.box), 1)) say("text under a control", text.element);
    // What stands on a button stays on it.
    if (controls[one].contains(text.element)) {
      const out = text.box.left < box.left - 1 || text.box.right > box.right + 1 || text.box.bottom > box.bottom + 1;
      if (out) say("text beside its control", text.element);
    }
  }
}
// Cards stand controls, and so do the fields in them.
const cards = all.filter((element) => element.matches("main section, main label, header, footer, details"));
for (let one = 0; one < cards.length; one += 1) {
  for (let two = one + 1; two < cards.length; two += 1) {
    if (!kin(cards[one], cards[two]) && cross(cards[one].getBoundingClientRect(), cards[two].getBoundingClientRect(), 0.5)) {
      say("box over box", cards[one], `and ${cards[two].getAttribute("aria-label") || cards[two].textContent.slice(0, 30)}`);
    }
  }
}
// Notes stay clear of the buttons and words around their staff.
const marks = all.filter((element) => isSvg(element) && element.closest("[role=img]") && ["use", "path", "rect", "line"].includes(element.tagName) && !beside(element, element.getBoundingClientRect()));
for (const mark of marks) {
  const box = mark.getBoundingClientRect();
  if (!strip(mark) && (box.left < -0.5 || box.right > wide + 0.5)) say("ink out of the window", mark);
  for (const control of controls) {
    if (!layer(control) && cross(box, control.getBoundingClientRect(), 2)) {
      // The box of a cell is larger than what it shows.
      const shown = [...control.children].some((child) => cross(box, child.getBoundingClientRect(), 1));
      if (shown || control.children.length === 0) say("ink over a control", control);
    }
  }
  for (const text of texts) if (!layer(text.element) && cross(box, ink(text.box), 1)) say("ink over text", text.element);
}

// Large enough to read and to hit.
for (const { element } of texts) {
  const size = parseFloat(getComputedStyle(element).fontSize);
  if (size < 13.99) say("small text", element, `${size} px`);
}
for (const element of all) {
  if (element.tagName === "text") {
    const size = parseFloat(getComputedStyle(element).fontSize) * element.getScreenCTM().a;
    if (size < 13.99) say("small text", element, `${size} px`);
  }
}
for (const element of controls) {
  const box = element.getBoundingClientRect();
  if (box.height < 43.9) say("low target", element);
  if (element.tagName === "BUTTON" && box.width < 43.9) say("narrow target", element);
}

// Strong enough to see: colours laid over each other as they are painted.
const colour = (text) => {
  const parts = text.match(/[\d.]+/g)?.map(Number) ?? [0, 0, 0, 0];
  if (text.startsWith("color(srgb")) return [parts[0] * 255, parts[1] * 255, parts[2] * 255, parts[3] ?? 1];
  return [parts[0], parts[1], parts[2], parts[3] ?? 1];
};
const over = (top, under) => top.slice(0, 3).map((value, at) => value * top[3] + under[at] * (1 - top[3])).concat(1);
const light = ([red, green, blue]) => {
  const [r, g, b] = [red, green, blue].map((value) => (value / 255 <= 0.04045 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const contrast = (one, two) => {
  const [low, high] = [light(one), light(two)].sort((a, b) => a - b);
  return (high + 0.05) / (low + 0.05);
};
// What is painted behind, beside the things that hold the text: the band of the selected column.
const behind = all.filter((element) => getComputedStyle(element).position === "absolute" && element.childElementCount === 0 &&
  !element.textContent && colour(getComputedStyle(element).backgroundColor)[3] > 0);
const ground = (element, box) => {
  const chain = [];
  for (let at = element; at; at = at.parentElement) chain.unshift(at);
  let under = [255, 255, 255, 1];
  if (getComputedStyle(root).colorScheme === "dark") under = [18, 18, 18, 1];
  for (const [depth, at] of chain.entries()) {
    // What holds it may stand beside it: only what is really behind counts.
    const own = at.getBoundingClientRect();
    const middle = { left: (box.left + box.right) / 2, top: (box.top + box.bottom) / 2 };
    const here = own.left <= middle.left && own.right >= middle.left && own.top <= middle.top && own.bottom >= middle.top;
    if (here || at === root || at === document.body) under = over(colour(getComputedStyle(at).backgroundColor), under);
    const next = chain[depth + 1];
    for (const band of behind) {
      if (next && band.parentElement === at && band.compareDocumentPosition(next) & Node.DOCUMENT_POSITION_FOLLOWING &&
        cross(band.getBoundingClientRect(), box, 0)) under = over(colour(getComputedStyle(band).backgroundColor), under);
    }
  }
  return under;
};
const faint = (element, box, text, least, what) => {
  const under = ground(element, box);
  const ratio = contrast(over(colour(text), under), under);
  if (ratio < least) say(what, element, `${ratio.toFixed(2)} to 1`);
};
for (const { element, box } of texts) faint(element, box, getComputedStyle(element).color, leastContrast, "faint text");
for (const element of controls) {
  const box = element.getBoundingClientRect();
  const style = getComputedStyle(element);
  if (element.matches("input, select")) {
    faint(element, box, style.color, leastContrast, "faint text");
    if (element.placeholder) faint(element, box, getComputedStyle(element, "::placeholder").color, leastContrast, "faint hint");
    faint(element.parentElement, box, style.borderTopColor, leastInk, "faint edge");
  }
}
for (const mark of marks) faint(mark, mark.getBoundingClientRect(), getComputedStyle(mark).fill, leastInk, "faint ink");

const least = whole === document.body ? 10 : 2;
if (texts.length < least || controls.length < least) found.push(`only ${texts.length} texts and ${controls.length} controls were looked at`);
for (const element of staying) element.style.position = element.style.top = "";
return [...new Set(found)];
