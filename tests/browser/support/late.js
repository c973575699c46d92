// Networks on which the late half of the app comes late or not at all: init scripts for a context or a page.

/** A network that lets nothing of the app's late half through, until `window.lateComes` is true. */
export function lateBlocked() {
  window.lateComes = false;
  const { fetch } = window;
  window.fetch = (place, ...rest) =>
    String(place).endsWith("_late.wasm") && !window.lateComes
      ? Promise.reject(new TypeError("Failed to fetch"))
      : fetch(place, ...rest);
}

/**
 * A slow network: the app's late half comes only after `window.letLateCome()`. When it was first asked for,
 * `window.lateAsked` says whether a card of Today was drawn by then.
 */
export function lateHeld() {
  const { fetch } = window;
  const come = new Promise((resolve) => (window.letLateCome = resolve));
  window.fetch = async (place, ...rest) => {
    if (String(place).endsWith("_late.wasm")) {
      window.lateAsked ??= document.querySelector("main a.card") === null ? "before" : "after";
      await come;
    }
    return fetch(place, ...rest);
  };
}
