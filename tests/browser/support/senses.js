// What a test hears and feels: an init script counts the sounds that play and the vibrations, and
// lets a test hide the page as if the baker had turned to another app.

/** Has to be added to a context before its first page. */
export async function addSenses(context) {
  await context.addInitScript(listen);
}

/** How many endless sounds can be heard now. The alarm is the only one the app has. */
export function ringing(page) {
  return page.evaluate(() => {
    const heard = [...window.senses.ringing].filter((sound) => sound.context.state === "running");
    return heard.length;
  });
}

/** Everything the phone was told to do with its motor; 0 stops it. */
export function vibrations(page) {
  return page.evaluate(() => window.senses.vibrations);
}

/** The notifications that the service worker shows now. */
export function notifications(page) {
  return page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    const shown = await registration.getNotifications();
    return shown.map(({ title, body }) => ({ title, body }));
  });
}

/** A phone call takes the sound away, as phones do without asking the page. */
export async function takeSound(page) {
  await page.evaluate(() => Promise.all(window.senses.sounds.map((sound) => sound.suspend())));
}

/** The baker turns to another app, or comes back. */
export async function setHidden(page, hidden) {
  await page.evaluate((now) => {
    window.senses.hidden = now;
    document.dispatchEvent(new Event("visibilitychange"));
  }, hidden);
}

// Runs in the page, before any of the app's code.
function listen() {
  const senses = { ringing: new Set(), vibrations: [], sounds: [], hidden: false };
  window.senses = senses;

  window.AudioContext = class extends AudioContext {
    constructor(...options) {
      super(...options);
      senses.sounds.push(this);
    }
  };

  const { start, stop } = AudioBufferSourceNode.prototype;
  AudioBufferSourceNode.prototype.start = function (...when) {
    start.apply(this, when);
    if (this.loop) senses.ringing.add(this);
  };
  AudioBufferSourceNode.prototype.stop = function (...when) {
    stop.apply(this, when);
    senses.ringing.delete(this);
  };
  // The app takes a sound whose clock stands still for stuck, and the test's clock would outrun it.
  const real = Object.getOwnPropertyDescriptor(BaseAudioContext.prototype, "currentTime").get;
  Object.defineProperty(BaseAudioContext.prototype, "currentTime", {
    get() {
      return real.call(this) + performance.now() / 1000;
    },
  });

  navigator.vibrate = (pattern) => senses.vibrations.push(pattern) > 0;

  const say = (name, value) =>
    Object.defineProperty(Document.prototype, name, { configurable: true, get: value });
  say("visibilityState", () => (senses.hidden ? "hidden" : "visible"));
  say("hidden", () => senses.hidden);
}
