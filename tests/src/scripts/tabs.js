// How many presses of the tabulator key lead from where the focus is to this element, negative with Shift; and how many
// of an arrow to the right from there, in a toolbar, which is one stop.
const [wanted] = arguments;
const buttons = [...(wanted.closest("[role=toolbar]")?.querySelectorAll("button") ?? [])].filter((at) => at.checkVisibility());
const stop = buttons.find((at) => at.tabIndex >= 0) ?? wanted;
const arrows = Math.max(0, buttons.indexOf(wanted)) - Math.max(0, buttons.indexOf(stop));
// A dialog over the page keeps the key to itself.
const whole = document.querySelector("dialog:modal") ?? document;
const stops = [...whole.querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex]")].filter((at) =>
  at.tabIndex >= 0 && (at.type !== "radio" || at.checked) && !at.disabled && at.checkVisibility({ visibilityProperty: true }) && !at.closest("[inert]"));
const here = document.activeElement;
const to = stops.indexOf(stop);
if (to < 0) return null;
const from = stops.indexOf(here);
if (from >= 0) return [to - from, arrows];
// Not a stop itself, as the head of the page: from there to the next one behind it.
const next = here === document.body ? 0 : stops.findIndex((at) => here.compareDocumentPosition(at) & Node.DOCUMENT_POSITION_FOLLOWING);
return [to >= next ? to - next + 1 : to - next, arrows];
