// What has been heard since this was last asked, put together in an offline context of the browser's own: its samples as
// 32-bit floats in base64, where each piece begins and how long it is, in samples. `fresh`: only what was wished for since
// then, not what an older wish had still to give.
const heard = window.__crookwiseHeard;
const all = heard.pieces.splice(0);
const pieces = all.filter((piece) => !fresh || !heard.taken.has(piece.knob));
for (const piece of all) heard.taken.add(piece.knob);
const faded = heard.faded.splice(0).filter((at) => at.target === 0).length;
if (!pieces.length) return { samples: "", pieces: [], rate: 0, faded };
const { rate } = heard;
const begin = Math.min(...pieces.map((piece) => piece.when));
const end = Math.max(...pieces.map((piece) => piece.when + piece.samples.length / rate));
const offline = new OfflineAudioContext(1, Math.round((end - begin) * rate), rate);
for (const piece of pieces) {
  const source = offline.createBufferSource();
  source.buffer = offline.createBuffer(1, piece.samples.length, rate);
  source.buffer.copyToChannel(piece.samples, 0);
  source.connect(offline.destination);
  source.start(piece.when - begin);
}
const bytes = new Uint8Array((await offline.startRendering()).getChannelData(0).buffer);
let text = "";
for (let at = 0; at < bytes.length; at += 0x8000) text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
return {
  samples: btoa(text),
  pieces: pieces.map((piece) => [(piece.when - begin) * rate, piece.samples.length]),
  late: Math.max(...pieces.map((piece) => piece.asked - piece.when)),
  rate,
  faded,
};
