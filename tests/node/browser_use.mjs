// The package in a browser: a page that has <output id="result"> loads this module with the address of the package's
// entry behind it, `browser_use.mjs?package=/package/browser.js`. What the calls give is written there as JSON; the
// title says "done" or "failed".

const output = document.getElementById("result");
try {
    const address = new URL(import.meta.url).searchParams.get("package");
    const { decodeLabel, readNote, writeNote } = await import(new URL(address, location.href).href);
    let code = null;
    try {
        readNote({ label: "Corni in Es", printed: "H4" });
    } catch (error) {
        code = error instanceof Error ? error.code : "no Error";
    }
    output.textContent = JSON.stringify({
        staff: decodeLabel("Corni in Es").staff,
        reading: readNote({ label: "Corni in Es", printed: "E5", movementKey: "Eb major", as: "Horn in F" }),
        writing: writeNote({ label: "Corni in Es", sounding: "F#4" }),
        code,
    });
    document.title = "done";
} catch (error) {
    output.textContent = String(error);
    document.title = "failed";
}
