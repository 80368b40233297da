// Where the written staff stands on the screen, at the column of one of the buttons in "Notes on the staff". The staff is
// scrolled to the middle first; all lengths are in CSS pixels from the corner of what is seen.
const [column] = arguments;
const cells = [...document.querySelectorAll('[role=application][aria-label="Notes on the staff"] button')];
const cell = cells[column];
if (!cell) return null;
const before = (staff) => staff.compareDocumentPosition(cell) & Node.DOCUMENT_POSITION_FOLLOWING;
const staff = [...document.querySelectorAll('[role=img][aria-label="Written staff"]')].filter(before).at(-1);
if (!staff) return null;
staff.scrollIntoView({ block: "center", inline: "nearest", behavior: "instant" });
const picture = staff.querySelector("svg");
if (!picture) return null;
const wide = picture.getBoundingClientRect().width / 2;
const lines = new Set();
for (const mark of picture.querySelectorAll(".ink-staff > *")) {
  const box = mark.getBoundingClientRect();
  if (box.width > wide) lines.add(Math.round((box.top + box.height / 2) * 100) / 100);
}
const { left, width } = cell.getBoundingClientRect();
const { top, bottom } = staff.getBoundingClientRect();
return { lines: [...lines].sort((one, two) => one - two), left, width, top, bottom };
