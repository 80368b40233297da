// What is wrong with the page as it is laid out now, in words: things out of the window, cut off, over each other, too
// small to read or to hit, too faint. What nobody sees is left out.
// One dialog at most stands over the page, and is then looked at alone; else the page is looked at from its end, where
// what stays at the lower edge of the window has a place of its own.
const [leastContrast, leastInk] = arguments;
const whole = document.querySelector("dialog:modal") ?? document.body;
scrollTo({ top: document.documentElement.scrollHeight, behavior: "instant" });
// What stays at the upper edge, or at the left of what runs sideways, lies over what has gone under it, and is meant to: it is
// looked at in its own place.
const staying = [...whole.querySelectorAll("*")].filter((element) => {
  const style = getComputedStyle(element);
  return style.position === "sticky" && (style.top !== "auto" || style.left !== "auto");
});
for (const { style } of staying) style.position = "relative", style.top = "auto", style.left = "auto";
// Nothing moves or changes while it is looked at, so whatever the browser has said of an element holds for all that asks.
const once = (ask) => {
  const said = new Map();
  return (element) => {
    if (!said.has(element)) said.set(element, ask(element));
    return said.get(element);
  };
};
const boxOf = once((element) => element.getBoundingClientRect());
const styleOf = once((element) => getComputedStyle(element));
const found = [];
const say = (what, element, more) => {
  const box = boxOf(element);
  const words = (element.getAttribute?.("aria-label") || element.textContent || "").replace(/\s+/g, " ").trim().slice(0, 40);
  const where = `${Math.round(box.left)},${Math.round(box.top)} ${Math.round(box.width)}x${Math.round(box.height)}`;
  found.push(`${what}: ${element.tagName.toLowerCase()}.${element.getAttribute?.("class") ?? ""} "${words}" at ${where}${more ? ` (${more})` : ""}`);
};
const root = document.documentElement;
const wide = root.clientWidth;
if (root.scrollWidth > wide) found.push(`the page is ${root.scrollWidth} px wide in a window of ${wide}`);

// Only for the ear, or a store of outlines.
const unseen = once((element) => {
  if (!element) return false;
  const style = styleOf(element);
  if (style.clipPath.startsWith("inset(50%")) return true;
  if (style.overflow === "hidden" && (element.clientWidth === 0 || element.clientHeight === 0)) return true;
  return unseen(element.parentElement);
});
const seen = (element) =>
  (!element.checkVisibility || element.checkVisibility({ visibilityProperty: true, opacityProperty: true })) && !unseen(element);
const all = [...whole.querySelectorAll("*")].filter(seen);
const isSvg = (element) => element.namespaceURI.endsWith("svg");

// What runs sideways under the finger may lie beside the window; what is then not seen of it is left out.
const strip = once((element) => {
  const around = element.parentElement;
  if (!around || around === document.body) return null;
  return ["auto", "scroll"].includes(styleOf(around).overflowX) ? around : strip(around);
});
const beside = (element, box) => {
  const around = strip(element);
  return around && (box.right <= boxOf(around).left || box.left >= boxOf(around).right);
};
// A small panel of the browser lies over the page, and is meant to.
const layer = once((element) => element.closest(":popover-open"));

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
const controls = all.filter((element) => element.matches("button, input, select, summary, textarea") && !beside(element, boxOf(element)));

// Out of the window, or cut off by what is around.
for (const { element, box } of texts) {
  if (!strip(element) && (box.left < -0.5 || box.right > wide + 0.5)) say("text out of the window", element);
  for (let at = element; at && at !== document.body; at = at.parentElement) {
    const style = styleOf(at);
    if (style.overflowX === "visible" && style.overflowY === "visible") continue;
    const around = boxOf(at);
    const scrolls = (way) => ["auto", "scroll"].includes(way);
    if (!scrolls(style.overflowX) && (box.left < around.left - 1 || box.right > around.right + 1)) say("text cut off", element);
    if (!scrolls(style.overflowY) && (box.top < around.top - 1 || box.bottom > around.bottom + 1)) say("text cut off", element);
  }
}
for (const element of controls) {
  const box = boxOf(element);
  if (!strip(element) && (box.left < -0.5 || box.right > wide + 0.5)) say("control out of the window", element);
}
// What a list or a field says must have room in it; a line that the reader types may be longer than its field.
const pen = document.createElement("canvas").getContext("2d");
for (const element of controls) {
  const style = styleOf(element);
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
for (const text of texts) {
  const { left, right, top, bottom, height } = text.box;
  text.ink = { left, right, top: top + height * 0.22, bottom: bottom - height * 0.22 };
}
for (let one = 0; one < texts.length; one += 1) {
  for (let two = one + 1; two < texts.length; two += 1) {
    const [first, second] = [texts[one], texts[two]];
    if (cross(first.ink, second.ink, 1) && first.element !== second.element && layer(first.element) === layer(second.element)) {
      say("text over text", first.element, `and "${second.element.textContent.trim().slice(0, 30)}"`);
    }
  }
}
for (let one = 0; one < controls.length; one += 1) {
  const box = boxOf(controls[one]);
  for (let two = one + 1; two < controls.length; two += 1) {
    if (cross(box, boxOf(controls[two]), 0.5) && !kin(controls[one], controls[two])) {
      say("control over control", controls[one], `and ${controls[two].getAttribute("aria-label") || controls[two].textContent.slice(0, 30)}`);
    }
  }
  for (const text of texts) {
    if (cross(box, text.ink, 1) && !kin(controls[one], text.element)) say("text under a control", text.element);
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
    if (cross(boxOf(cards[one]), boxOf(cards[two]), 0.5) && !kin(cards[one], cards[two])) {
      say("box over box", cards[one], `and ${cards[two].getAttribute("aria-label") || cards[two].textContent.slice(0, 30)}`);
    }
  }
}
// Notes stay clear of the buttons and words around their staff.
const marks = all.filter((element) => isSvg(element) && element.closest("[role=img]") && ["use", "path", "rect", "line"].includes(element.tagName) && !beside(element, boxOf(element)));
for (const mark of marks) {
  const box = boxOf(mark);
  if (!strip(mark) && (box.left < -0.5 || box.right > wide + 0.5)) say("ink out of the window", mark);
  for (const control of controls) {
    if (cross(box, boxOf(control), 2) && !layer(control)) {
      // The box of a cell is larger than what it shows.
      const shown = [...control.children].some((child) => cross(box, boxOf(child), 1));
      if (shown || control.children.length === 0) say("ink over a control", control);
    }
  }
  for (const text of texts) if (cross(box, text.ink, 1) && !layer(text.element)) say("ink over text", text.element);
}

// Large enough to read and to hit.
for (const { element } of texts) {
  const size = parseFloat(styleOf(element).fontSize);
  if (size < 13.99) say("small text", element, `${size} px`);
}
for (const element of all) {
  if (element.tagName === "text") {
    const size = parseFloat(styleOf(element).fontSize) * element.getScreenCTM().a;
    if (size < 13.99) say("small text", element, `${size} px`);
  }
}
for (const element of controls) {
  const box = boxOf(element);
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
const backOf = once((element) => colour(styleOf(element).backgroundColor));
const behind = all.filter((element) => element.childElementCount === 0 && styleOf(element).position === "absolute" &&
  !element.textContent && backOf(element)[3] > 0);
const ground = (element, box) => {
  const chain = [];
  for (let at = element; at; at = at.parentElement) chain.unshift(at);
  let under = [255, 255, 255, 1];
  if (getComputedStyle(root).colorScheme === "dark") under = [18, 18, 18, 1];
  for (const [depth, at] of chain.entries()) {
    // What holds it may stand beside it: only what is really behind counts.
    const own = boxOf(at);
    const middle = { left: (box.left + box.right) / 2, top: (box.top + box.bottom) / 2 };
    const here = own.left <= middle.left && own.right >= middle.left && own.top <= middle.top && own.bottom >= middle.top;
    if (here || at === root || at === document.body) under = over(backOf(at), under);
    const next = chain[depth + 1];
    for (const band of behind) {
      if (next && band.parentElement === at && band.compareDocumentPosition(next) & Node.DOCUMENT_POSITION_FOLLOWING &&
        cross(boxOf(band), box, 0)) under = over(backOf(band), under);
    }
  }
  return under;
};
const faint = (element, box, text, least, what) => {
  const under = ground(element, box);
  const ratio = contrast(over(colour(text), under), under);
  if (ratio < least) say(what, element, `${ratio.toFixed(2)} to 1`);
};
for (const { element, box } of texts) faint(element, box, styleOf(element).color, leastContrast, "faint text");
for (const element of controls) {
  const box = boxOf(element);
  const style = styleOf(element);
  if (element.matches("input, select")) {
    faint(element, box, style.color, leastContrast, "faint text");
    if (element.placeholder) faint(element, box, getComputedStyle(element, "::placeholder").color, leastContrast, "faint hint");
    faint(element.parentElement, box, style.borderTopColor, leastInk, "faint edge");
  }
}
for (const mark of marks) faint(mark, boxOf(mark), styleOf(mark).fill, leastInk, "faint ink");

const least = whole === document.body ? 10 : 2;
if (texts.length < least || controls.length < least) found.push(`only ${texts.length} texts and ${controls.length} controls were looked at`);
for (const element of staying) element.style.position = element.style.top = element.style.left = "";
return [...new Set(found)];
