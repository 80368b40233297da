// Where a written staff stands on the screen, at the column of one of its buttons: of the staff with this label, or of
// the only one in "Notes on the staff". The staff is scrolled to the middle first, its column into sight; all lengths are in CSS pixels from the
// corner of what is seen.
const [column, label] = arguments;
const sheet = document.querySelector('[role=application][aria-label="Notes on the staff"]');
const staves = [...sheet.querySelectorAll("[role=img]")];
const before = (staff, cell) => staff.compareDocumentPosition(cell) & Node.DOCUMENT_POSITION_FOLLOWING;
let cell, staff;
if (label === undefined) {
  cell = [...sheet.querySelectorAll("button")][column];
  if (!cell) return null;
  staff = staves.filter((staff) => staff.ariaLabel === "Written staff" && before(staff, cell)).at(-1);
} else {
  staff = staves.find((staff) => staff.ariaLabel === `Written staff, ${label}`);
  cell = staff?.parentElement.querySelector("[role=group]")?.querySelectorAll("button")[column];
}
if (!staff || !cell) return null;
staff.scrollIntoView({ block: "center", inline: "nearest", behavior: "instant" });
// Where the staves run sideways, the column is brought into what is seen of them.
cell.scrollIntoView({ block: "nearest", inline: "nearest", behavior: "instant" });
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
