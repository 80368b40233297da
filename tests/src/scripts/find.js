// Finds what a reader would call by role and name. A subset of the accessible-name computation that every browser here
// is held to: the flows compare it with the browser's own answer.
const [role, exact, part] = arguments;

const implicit = (element) => {
  const tag = element.tagName.toLowerCase();
  const type = (element.getAttribute("type") || "text").toLowerCase();
  switch (tag) {
    case "a": case "area": return element.hasAttribute("href") ? "link" : "generic";
    case "button": case "summary": return "button";
    case "h1": case "h2": case "h3": case "h4": case "h5": case "h6": return "heading";
    case "select": return element.multiple || element.size > 1 ? "listbox" : "combobox";
    case "option": return "option";
    case "textarea": return "textbox";
    case "img": return element.getAttribute("alt") === "" ? "none" : "img";
    case "ul": case "ol": case "menu": return "list";
    case "li": return "listitem";
    case "main": return "main";
    case "nav": return "navigation";
    case "aside": return "complementary";
    case "header": return element.closest("article,aside,main,nav,section") ? "generic" : "banner";
    case "footer": return element.closest("article,aside,main,nav,section") ? "generic" : "contentinfo";
    case "section": return name(element) ? "region" : "generic";
    case "form": return name(element) ? "form" : "generic";
    case "fieldset": case "details": return "group";
    case "dialog": return "dialog";
    case "table": return "table";
    case "tr": return "row";
    case "td": return "cell";
    case "th": return element.getAttribute("scope") === "row" ? "rowheader" : "columnheader";
    case "output": return "status";
    case "meter": return "meter";
    case "progress": return "progressbar";
    case "hr": return "separator";
    case "p": return "paragraph";
    case "input":
      if (["button", "submit", "reset", "image"].includes(type)) return "button";
      if (["checkbox", "radio"].includes(type)) return type;
      if (type === "range") return "slider";
      if (type === "number") return "spinbutton";
      if (type === "hidden") return "none";
      if (element.hasAttribute("list")) return "combobox";
      return type === "search" ? "searchbox" : "textbox";
    default: return "generic";
  }
};
const roleOf = (element) => (element.getAttribute("role") || "").trim().split(/\s+/)[0] || implicit(element);

// Over the page stands one dialog at most; what is beneath it nobody reaches.
const over = document.querySelector("dialog:modal");

const hidden = (element) => {
  if (over && !over.contains(element)) return true;
  for (let at = element; at; at = at.parentElement) {
    if (at.getAttribute("aria-hidden") === "true" || at.hasAttribute("inert")) return true;
  }
  const style = getComputedStyle(element);
  // What a closed fold holds has boxes all the same.
  if (style.display !== "contents" && element.checkVisibility && !element.checkVisibility()) return true;
  return style.visibility !== "visible" || (element.getClientRects().length === 0 && style.display !== "contents");
};
const content = (element) => {
  let text = "";
  for (const node of element.childNodes) {
    if (node.nodeType === Node.TEXT_NODE) text += node.data;
    else if (node.nodeType === Node.ELEMENT_NODE && node.getAttribute("aria-hidden") !== "true") {
      // A list inside its own label does not name itself.
      if (node.tagName === "SELECT") continue;
      const style = getComputedStyle(node);
      if (style.display === "none" || style.visibility !== "visible") continue;
      const inner = node.getAttribute("aria-label") || node.getAttribute("alt") || content(node);
      text += style.display.startsWith("inline") || node.namespaceURI.endsWith("svg") ? inner : ` ${inner} `;
    }
  }
  return text;
};
const tidy = (text) => text.replace(/\s+/g, " ").trim();
const fromContent = ["button", "link", "heading", "option", "tab", "menuitem", "menuitemradio", "menuitemcheckbox", "checkbox",
  "radio", "switch", "cell", "gridcell", "rowheader", "columnheader", "row", "treeitem", "tooltip"];
function name(element) {
  const ids = (element.getAttribute("aria-labelledby") || "").trim();
  if (ids) {
    const parts = ids.split(/\s+/).map((id) => document.getElementById(id)).filter(Boolean);
    const joined = tidy(parts.map((at) => at.getAttribute("aria-label") || content(at)).join(" "));
    if (joined) return joined;
  }
  const label = tidy(element.getAttribute("aria-label") || "");
  if (label) return label;
  if (element.labels && element.labels.length) return tidy([...element.labels].map(content).join(" "));
  const tag = element.tagName.toLowerCase();
  if (tag === "img") return tidy(element.getAttribute("alt") || "");
  if (tag === "input" && ["button", "submit", "reset"].includes(element.type)) return tidy(element.value);
  const child = { fieldset: "legend", table: "caption", svg: "title", g: "title", figure: "figcaption" }[tag];
  if (child) {
    const named = [...element.children].find((at) => at.tagName.toLowerCase() === child);
    if (named) return tidy(named.textContent);
  }
  const own = (element.getAttribute("role") || "").trim() || (["section", "form"].includes(tag) ? "" : implicit(element));
  if (fromContent.includes(own)) {
    const text = tidy(content(element));
    if (text) return text;
  }
  return tidy(element.getAttribute("title") || element.getAttribute("placeholder") || "");
}

const wanted = (element) => {
  if (roleOf(element) !== role) return false;
  // What is hidden is asked last: the answer waits for the page to be laid out.
  if (exact !== null && name(element) !== exact) return false;
  if (part !== null && !name(element).includes(part)) return false;
  return !hidden(element);
};
return [...document.querySelectorAll("*")].filter(wanted);
