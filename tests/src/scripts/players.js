// Every player with what their notes are called aloud, as the groups of the sheet have them; those of one player are joined
// where the page breaks into systems.
const sheet = document.querySelector('[role=application][aria-label="Notes on the staff"]');
const name = (button) => button.getAttribute("aria-label")
  ?? [...button.children].filter((part) => part.ariaHidden !== "true").map((part) => part.textContent).join("");
const systems = [...sheet.children].map((system) => [...system.querySelectorAll("[role=group]")]);
const players = [];
for (const groups of systems) {
  groups.forEach((group, at) => {
    players[at] ??= [group.getAttribute("aria-label"), []];
    players[at][1].push(...[...group.querySelectorAll("button")].map(name).filter((note) => note !== "Add a note"));
  });
}
return players;
