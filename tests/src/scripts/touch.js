// A finger for browsers whose driver has none: the pointer events of one touch, made in the page. They are not trusted
// events, and there is no scrolling; capture is kept here, since the browser knows no such pointer.
const [kind, x, y] = arguments;
const id = 7001;
const state = (window.__crookwiseTouch ??= { target: null, captured: null, startX: 0, startY: 0 });
if (!Element.prototype.__crookwiseCapture) {
  Object.defineProperty(Element.prototype, "__crookwiseCapture", { value: true });
  const { setPointerCapture, releasePointerCapture, hasPointerCapture } = Element.prototype;
  Element.prototype.setPointerCapture = function (pointer) {
    if (pointer === id) state.captured = this; else setPointerCapture.call(this, pointer);
  };
  Element.prototype.releasePointerCapture = function (pointer) {
    if (pointer === id) state.captured = null; else releasePointerCapture.call(this, pointer);
  };
  Element.prototype.hasPointerCapture = function (pointer) {
    return pointer === id ? state.captured === this : hasPointerCapture.call(this, pointer);
  };
}
const send = (target, type, buttons) => target.dispatchEvent(new PointerEvent(type, {
  pointerId: id, pointerType: "touch", isPrimary: true, bubbles: !/enter|leave/.test(type), cancelable: true, composed: true,
  clientX: x, clientY: y, screenX: x, screenY: y, button: type === "pointermove" ? -1 : 0, buttons,
  width: 20, height: 20, pressure: buttons ? 0.5 : 0, view: window,
}));
const at = document.elementFromPoint(x, y) ?? document.documentElement;
if (kind === "down") {
  Object.assign(state, { target: at, captured: at, startX: x, startY: y });
  send(at, "pointerover", 0);
  send(at, "pointerenter", 0);
  send(at, "pointerdown", 1);
} else {
  const alive = (element) => (element && element.isConnected ? element : null);
  const to = alive(state.captured) ?? alive(state.target) ?? at;
  if (kind === "move") send(to, "pointermove", 1);
  if (kind === "up") {
    send(to, "pointerup", 0);
    if (state.captured) send(to, "lostpointercapture", 0);
    send(to, "pointerout", 0);
    send(to, "pointerleave", 0);
    const still = Math.hypot(x - state.startX, y - state.startY) < 10;
    if (still && alive(state.target)) {
      const field = at.closest("input, textarea, select");
      if (field) field.focus();
      at.dispatchEvent(new PointerEvent("click", {
        pointerId: id, pointerType: "touch", bubbles: true, cancelable: true, composed: true, clientX: x, clientY: y,
        detail: 1, view: window,
      }));
    }
    Object.assign(state, { target: null, captured: null });
  }
}
