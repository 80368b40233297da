// Listens to what the page plays: every piece of sound that is handed to the browser, when it is to be heard by the clock
// of its context, and the knob that it goes through, which each wish of the reader's has for itself. The browser plays all
// of it as ever.
(() => {
  const heard = (window.__crookwiseHeard = { pieces: [], faded: [], rate: 0, taken: new WeakSet() });
  const knobs = new WeakMap();
  const { connect } = AudioNode.prototype;
  AudioNode.prototype.connect = function (to, ...rest) {
    knobs.set(this, to);
    return connect.call(this, to, ...rest);
  };
  const { start } = AudioBufferSourceNode.prototype;
  AudioBufferSourceNode.prototype.start = function (when = 0, ...rest) {
    // What is put together again afterwards is not heard.
    if (this.context instanceof OfflineAudioContext) return start.call(this, when, ...rest);
    heard.rate = this.buffer.sampleRate;
    // When the first sound after a press is to be heard, by the clock of the page.
    heard.first ??= performance.now() + (when - this.context.currentTime) * 1000;
    const samples = this.buffer.getChannelData(0).slice();
    heard.pieces.push({ when, asked: this.context.currentTime, knob: knobs.get(this), samples });
    return start.call(this, when, ...rest);
  };
  addEventListener("click", () => {
    heard.pressed = performance.now();
    heard.first = undefined;
  }, true);
  const { setTargetAtTime } = AudioParam.prototype;
  AudioParam.prototype.setTargetAtTime = function (target, when, constant) {
    heard.faded.push({ target, when });
    return setTargetAtTime.call(this, target, when, constant);
  };
})();
