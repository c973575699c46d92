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

let lateCode;
let joined;
// What the first half of the app's code hands over to the late one.
const first = start();

/** Joins the late half to the running app, once: `platform::late` asks for it, and again where that failed. */
window.joinLate = () => {
  joined ??= join().catch((cause) => {
    joined = lateCode = undefined;
    throw cause;
  });
  return joined;
};

async function join() {
  const shared = await first;
  lateCode ??= compiled(late());
  await WebAssembly.instantiate(await lateCode, { "": shared });
}

async function start() {
  try {
    // This runs as soon as it is there, which may be before the end of the page is.
    if (!document.getElementById("app-wasm")) await parsed();
    // Side by side: neither waits for the other.
    const all = [import(address("app-script")), compiled(address("app-wasm")), parsed()];
    // Over a network the late half would only make the first one later.
    if (navigator.serviceWorker?.controller) readAhead();
    const [app, code] = await Promise.all(all);
    return await app.default({ module_or_path: code });
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
}

/** Where the late half lies. */
function late() {
  return document.getElementById("app-wasm").dataset.late;
}

/** Compiles the late half beside the first. Whether that fails shows when it is asked for. */
function readAhead() {
  lateCode = compiled(late());
  lateCode.catch(() => {});
}

/** The code that lies at a place, also where the host says that it is something else. */
async function compiled(place) {
  try {
    return await WebAssembly.compileStreaming(fetch(place));
  } catch {
    const answer = await fetch(place);
    return WebAssembly.compile(await answer.arrayBuffer());
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
