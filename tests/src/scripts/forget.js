// Empties what the page keeps at once, and every drawer of its database where there is one. A database that does not answer
// is not there for the page either: WebKit holds it back for as long as it runs where a page was left while it made it.
const patience = 8000;
localStorage.clear();
sessionStorage.clear();
const answer = (asked) => new Promise((done) => {
  asked.onsuccess = () => done(asked.result);
  asked.onerror = () => done(null);
  // None was there: it is not made here.
  asked.onupgradeneeded = () => asked.transaction.abort();
});
const emptied = async () => {
  const database = await answer(indexedDB.open("crookwise"));
  const drawers = database ? [...database.objectStoreNames] : [];
  if (drawers.length > 0) {
    const change = database.transaction(drawers, "readwrite");
    drawers.forEach((drawer) => change.objectStore(drawer).clear());
    await new Promise((done) => { change.oncomplete = done; change.onabort = done; });
  }
  if (database) database.close();
};
await Promise.race([emptied(), new Promise((done) => setTimeout(done, patience))]);
