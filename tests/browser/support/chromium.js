// Which browser, and how it is started.

export const EXECUTABLE = process.env.OVENTIDE_CHROMIUM ?? "/usr/bin/chromium";

export const FLAGS = [
  // Chromium's sandbox can't be set up by root, and CI machines often have no other user.
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  // No name but this machine's can be found, so that nothing leaves it even by mistake.
  "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE localhost",
];
