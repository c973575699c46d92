// Starts the app from the two files that the page's head names.
// A script of its own, because the page's policy allows no inline ones.

const address = (id) => document.getElementById(id).href;

try {
  const app = await import(address("app-script"));
  await app.default({ module_or_path: address("app-wasm") });
} catch (error) {
  // Whoever reads this has no app yet, so the words can't come from it.
  const opening = document.getElementById("opening");
  if (opening) {
    opening.textContent =
      "Oventide could not open. Load it again; if that doesn't help, this browser may be too old. " +
      "What you have saved is untouched.";
  }
  throw error;
}
