// Storage that fails as phones' storage does. All but `holdStorage`, which is called while a page is open, are init
// scripts for a context or a page.

/** A browser that keeps its storage shut, as some do in private windows. */
export function shutStorage() {
  IDBFactory.prototype.open = () => {
    throw new DOMException("The operation is insecure.", "SecurityError");
  };
}

/** A browser that lets the storage be asked for and then refuses, as others do. */
export function refusingStorage() {
  const open = IDBFactory.prototype.open;
  IDBFactory.prototype.open = function (...asked) {
    const request = open.apply(this, asked);
    const refusal = new DOMException("Internal error opening backing store.", "UnknownError");
    Object.defineProperty(request, "error", { get: () => refusal });
    Object.defineProperty(request, "result", {
      get: () => {
        throw new DOMException("The request failed.", "InvalidStateError");
      },
    });
    const stop = (event) => {
      event.stopImmediatePropagation();
      request.dispatchEvent(new Event("error"));
    };
    request.addEventListener("success", stop);
    request.addEventListener("upgradeneeded", stop);
    return request;
  };
}

/** A phone that is full as long as `window.full` is true. */
export function fullPhone() {
  window.full = false;
  for (const name of ["add", "put"]) {
    const write = IDBObjectStore.prototype[name];
    IDBObjectStore.prototype[name] = function (...what) {
      if (window.full) throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
      return write.apply(this, what);
    };
  }
}

/** A tab that wants a newer database than the tab before it has open. */
export function newerDatabase() {
  const open = IDBFactory.prototype.open;
  IDBFactory.prototype.open = function (name, version) {
    return open.call(this, name, version === undefined ? undefined : version + 1);
  };
}

/** A tab that won't let go of its database, whoever asks. */
export function clingToDatabase() {
  const listen = IDBDatabase.prototype.addEventListener;
  IDBDatabase.prototype.addEventListener = function (name, ...rest) {
    if (name !== "versionchange") listen.call(this, name, ...rest);
  };
}

/** A browser that doesn't answer when it is asked for its storage, until `window.answer()`. */
export function silentStorage() {
  const open = IDBFactory.prototype.open;
  const unanswered = [];
  let silent = true;
  IDBFactory.prototype.open = function (...asked) {
    const request = open.apply(this, asked);
    request.addEventListener("success", (event) => {
      if (!silent) return;
      event.stopImmediatePropagation();
      unanswered.push(request);
    });
    return request;
  };
  window.answer = () => {
    silent = false;
    for (const request of unanswered) request.dispatchEvent(new Event("success"));
  };
}

/** A phone that opens its storage and then can't read it, until `window.readable` is true. */
export function unreadableStorage() {
  window.readable = false;
  const read = IDBObjectStore.prototype.getAll;
  IDBObjectStore.prototype.getAll = function (...what) {
    if (window.readable) return read.apply(this, what);
    throw new DOMException("Connection to Indexed Database server lost.", "UnknownError");
  };
}

/** A phone that closes the storage at `window.loseStorage()`, and says nothing of it. */
export function losableStorage() {
  const open = IDBFactory.prototype.open;
  const databases = [];
  IDBFactory.prototype.open = function (...asked) {
    const request = open.apply(this, asked);
    request.addEventListener("success", () => databases.push(request.result));
    return request;
  };
  window.loseStorage = () => databases.forEach((database) => database.close());
}

/** A phone whose storage never says that something was written, from `window.hangs` on; `window.hung` counts it. */
export function hangingStorage() {
  window.hangs = false;
  window.hung = 0;
  const add = IDBObjectStore.prototype.add;
  IDBObjectStore.prototype.add = function (...what) {
    const request = add.apply(this, what);
    if (window.hangs) {
      window.hung += 1;
      request.addEventListener("success", (event) => event.stopImmediatePropagation());
    }
    return request;
  };
}

/**
 * Keeps all of the phone's storage busy from now on, so that it answers nobody, until `window.letGo()`. Time goes on
 * meanwhile, unless the storage is to be only slow, as on a busy machine.
 */
export function holdStorage(page, { isOnlySlow = false } = {}) {
  return page.evaluate(async (isHeld) => {
    window.storageIsHeld = isHeld;
    const opening = indexedDB.open("oventide");
    await new Promise((resolve) => (opening.onsuccess = resolve));
    const database = opening.result;
    const names = [...database.objectStoreNames];
    const store = database.transaction(names, "readwrite").objectStore(names[0]);
    let held = true;
    window.letGo = () => (held = window.storageIsHeld = false);
    // A transaction lives as long as something is asked in it.
    await new Promise((resolve) => {
      const ask = () => {
        resolve();
        if (held) store.get("nothing").onsuccess = ask;
        else database.close();
      };
      store.get("nothing").onsuccess = ask;
    });
  }, !isOnlySlow);
}
