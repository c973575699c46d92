// Starts the app from the two files that the page's head names, and speaks for it when it has broken.
// A script of its own, because the page's policy allows no inline ones.

const address = (id) => document.getElementById(id).href;

// The app is built without messages for what should never happen: WebAssembly only stops.
// What ran is then half done, so nothing more may reach the app until the page is loaded again.
addEventListener("error", ({ error }) => {
  if (hasStopped(error)) showStopped();
});
addEventListener("unhandledrejection", ({ reason }) => {
  if (hasStopped(reason)) showStopped();
});

try {
  // This runs as soon as it is there, which may be before the end of the page is.
  if (!document.getElementById("app-wasm")) await parsed();
  // Side by side: neither waits for the other.
  const [app, code] = await Promise.all([import(address("app-script")), compiled(), parsed()]);
  await app.default({ module_or_path: code });
} catch (error) {
  // Whoever reads this has no app yet, so the words can't come from it.
  const opening = document.getElementById("opening");
  if (opening && !hasStopped(error)) {
    opening.textContent =
      "Oventide could not open. Load it again; if that doesn't help, this browser may be too old. " +
      "What you have saved is untouched.";
  }
  throw error;
}

/** The app's code; only where to find it if the host says that it is something else, or the browser can't stream it. */
async function compiled() {
  const place = address("app-wasm");
  try {
    return await WebAssembly.compileStreaming(fetch(place));
  } catch {
    return place;
  }
}

function parsed() {
  if (document.readyState !== "loading") return undefined;
  return new Promise((done) => addEventListener("DOMContentLoaded", done, { once: true }));
}

function hasStopped(error) {
  return error instanceof WebAssembly.RuntimeError;
}

function showStopped() {
  if (document.getElementById("stopped")) return;
  const stored = document.querySelector(".standing")
    ? "What the warning on this page calls not saved will be lost; everything else is stored."
    : "Everything you have done so far is stored.";
  const dialog = element("dialog", "sheet", [
    element("div", "sheet-body", [
      element("h2", "", ["Something went wrong"]),
      element("p", "", [stored]),
      element("p", "", ["Oventide has stopped, and no alarm will ring until you load it again."]),
      element("p", "", [
        "If this happens again, write an archive on the Kitchen page first, so that you keep a copy.",
      ]),
      element("div", "sheet-actions", [element("button", "button button-main", ["Load again"])]),
    ]),
  ]);
  dialog.id = "stopped";
  dialog.setAttribute("role", "alertdialog");
  const heading = dialog.querySelector("h2");
  heading.id = "stopped-name";
  heading.tabIndex = -1;
  heading.autofocus = true;
  dialog.setAttribute("aria-labelledby", heading.id);
  dialog.querySelector("button").addEventListener("click", () => location.reload());
  // Under it lies an app that no longer answers, so Escape must not uncover it.
  dialog.addEventListener("close", () => dialog.showModal());
  document.body.append(dialog);
  dialog.showModal();
}

function element(name, classes, children) {
  const made = document.createElement(name);
  made.className = classes;
  made.append(...children);
  return made;
}
