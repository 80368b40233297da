// How many presses of the tabulator key lead from where the focus is to this element; negative with Shift.
const [wanted] = arguments;
const stops = [...document.querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex]")].filter((at) =>
  at.tabIndex >= 0 && (at.type !== "radio" || at.checked) && !at.disabled && at.checkVisibility({ visibilityProperty: true }) && !at.closest("[inert]"));
const here = document.activeElement;
const to = stops.indexOf(wanted);
if (to < 0) return null;
const from = stops.indexOf(here);
if (from >= 0) return to - from;
// Not a stop itself, as the head of the page: from there to the next one behind it.
const next = here === document.body ? 0 : stops.findIndex((at) => here.compareDocumentPosition(at) & Node.DOCUMENT_POSITION_FOLLOWING);
return to >= next ? to - next + 1 : to - next;
