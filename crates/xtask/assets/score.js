// Holds an opened score beside the page and answers: [number, question, file] comes in, [number, answer] goes out. On the
// way [number, null, hundredths] tells how far it is; [number] alone says that it broke.
import init, { answer } from "./score_glue.js";

let now = 0;
globalThis.tellProgress = (hundredths) => postMessage([now, null, hundredths]);
const ready = init({ module_or_path: new URL("./score.wasm", import.meta.url) });
const never = ready.catch(() => {});

onmessage = async ({ data: [number, question, file] }) => {
  await never;
  now = number;
  try {
    await ready;
    const given = answer(question, file);
    postMessage([number, given], [given.buffer]);
  } catch (error) {
    console.info(error);
    postMessage([number]);
  }
};
