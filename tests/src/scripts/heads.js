// The middles of the heads of notes in the music of a movement, in CSS pixels from the upper left corner of what is seen, the
// first of them brought into the middle of the window: in its path each begins at its origin. A head is 295 units wide.
const paths = [...document.querySelectorAll(".music-system .heads")];
if (arguments[0]) paths[0]?.scrollIntoView({ block: "center", behavior: "instant" });
return paths.flatMap((path) => {
  const place = path.getScreenCTM();
  return [...path.getAttribute("d").matchAll(/M(-?\d+) (-?\d+)/g)].map(([, x, y]) => {
    const middle = new DOMPoint(Number(x) + 147, Number(y)).matrixTransform(place);
    return [middle.x, middle.y];
  });
});
