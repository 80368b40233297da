// Put in front of the page's own scripts where the browser does not tell its driver what was written to the console.
(() => {
  const seen = [];
  const note = (kind, words) => seen.push(`${kind}: ${words}`);
  const text = (value) => {
    if (value instanceof Error) return `${value} ${value.stack}`;
    try { return typeof value === "string" ? value : JSON.stringify(value); } catch { return String(value); }
  };
  for (const kind of ["error", "warn", "assert"]) {
    const original = console[kind].bind(console);
    console[kind] = (...values) => {
      if (kind !== "assert" || !values[0]) note(`console.${kind}`, values.map(text).join(" "));
      original(...values);
    };
  }
  addEventListener("error", (event) => {
    const from = event.target && event.target !== window ? event.target.src || event.target.href || event.target.tagName : "";
    note("page error", [event.message, from, event.error && text(event.error)].filter(Boolean).join(" "));
  }, true);
  addEventListener("unhandledrejection", (event) => note("unhandled rejection", text(event.reason)));
  document.addEventListener("securitypolicyviolation", (event) => {
    note("policy violation", `${event.violatedDirective} ${event.blockedURI} ${event.sample}`);
  });
  Object.defineProperty(window, "__crookwiseSeen", { value: seen });
})();
