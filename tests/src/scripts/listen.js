// Listens to what the page plays: every piece of sound that is handed to the browser, and when it is to be heard by the
// clock of its context. The browser plays all of it as ever.
(() => {
  const heard = (window.__crookwiseHeard = { pieces: [], faded: [], rate: 0 });
  const { start } = AudioBufferSourceNode.prototype;
  AudioBufferSourceNode.prototype.start = function (when = 0, ...rest) {
    // What is put together again afterwards is not heard.
    if (this.context instanceof OfflineAudioContext) return start.call(this, when, ...rest);
    heard.rate = this.buffer.sampleRate;
    heard.pieces.push({ when, asked: this.context.currentTime, samples: this.buffer.getChannelData(0).slice() });
    return start.call(this, when, ...rest);
  };
  const { setTargetAtTime } = AudioParam.prototype;
  AudioParam.prototype.setTargetAtTime = function (target, when, constant) {
    heard.faded.push({ target, when });
    return setTargetAtTime.call(this, target, when, constant);
  };
})();
