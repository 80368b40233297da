// What becomes of the keyboard's focus. Begun once a page; afterwards it gives what was wrong since it was last asked: a
// focus that nobody sees, that stands outside the window, or that was lost to the page as a whole.
if (!window.__crookwiseFocus) {
  const watch = (window.__crookwiseFocus = { faults: [], looked: 0 });
  const words = (at) => `${at.tagName.toLowerCase()} "${(at.ariaLabel || at.textContent || at.id).replace(/\s+/g, " ").trim().slice(0, 40)}"`;
  let [before, looked, still, lost] = [null, null, 0, 0];
  const look = () => {
    const at = document.activeElement;
    if (!at || at === document.body) {
      // For a moment it may be between two places.
      lost += 1;
      if (before && lost === 4) watch.faults.push(`lost after ${before}`);
    } else {
      lost = 0;
      still = at === looked ? still + 1 : 0;
      looked = at;
      before = words(at);
      // What is scrolled into view and drawn anew has come to rest.
      if (still === 2) {
        watch.looked += 1;
        const style = getComputedStyle(at);
        // What takes the focus only for the app's sake, between two places, is not a place of its own.
        const own = at.tabIndex >= 0;
        const outlined = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2;
        const { top, bottom, left, right } = at.getBoundingClientRect();
        const out = bottom <= 0 || top >= innerHeight || right <= 0 || left >= innerWidth;
        // A window that is not in front shows no focus, and WebKitGTK's never is on a screen without a window manager.
        if (own && document.hasFocus()) {
          if (!(at.matches(":focus-visible") && outlined)) watch.faults.push(`not seen on ${before}`);
          if (out) watch.faults.push(`out of the window on ${before}`);
        }
      }
    }
    requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}
const { faults, looked } = window.__crookwiseFocus;
return { faults: faults.splice(0), looked };
