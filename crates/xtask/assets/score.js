// Holds an opened score beside the page and answers: [number, question, file] comes in, [number, answer] goes out. On the
// way [number, null, hundredths] tells how far it is; [number] alone says that it broke. What is not answered yet is asked
// again behind what has come meanwhile. The app itself is started here, where it finds no page. Written by `cargo xtask
// build`, which fills in the names.
import init from "../{{js}}";

let now = 0;
globalThis.tellProgress = (hundredths) => postMessage([now, null, hundredths]);
const ready = new Promise((done, broken) => {
  globalThis.holdScore = (answer) => (answer ? done(answer) : broken(new Error("the part that reads scores is missing")));
  takeFromAnyHost();
  init({ module_or_path: new URL("../{{wasm}}", import.meta.url) }).catch(broken);
});
ready.catch(() => {});

const asked = async ([number, question, file]) => {
  try {
    const answer = await ready;
    now = number;
    const given = answer(question, file);
    if (given) postMessage([number, given], [given.buffer]);
    else setTimeout(asked, 0, [number, question, file]);
  } catch (error) {
    console.info(error);
    postMessage([number]);
  }
};
onmessage = ({ data }) => asked(data);
