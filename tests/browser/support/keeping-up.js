// The storage takes its own time, and a test's clock takes none: without this, ten seconds of the page pass before a
// busy machine has written one record, and the app says, as it should, that the storage doesn't answer.
//
// So the page's time stands still while the storage is at work. Where it doesn't answer on purpose, `holdStorage` says so.

/** Has to be added to a context before its first page. */
export async function letStorageKeepUp(context) {
  await context.addInitScript(keepUp);
}

// Runs in the page, before any of the app's code.
function keepUp() {
  const atWork = new Set();
  const waiting = [];
  window.storageIsHeld = false;

  const begun = (work, ends) => {
    const ended = () => {
      atWork.delete(work);
      if (atWork.size > 0) return;
      for (const post of waiting.splice(0)) post();
    };
    atWork.add(work);
    for (const end of ends) work.addEventListener(end, ended);
    // Time can stand still only between two timers, so there is one before any of the app's.
    setTimeout(() => {}, 1);
    return work;
  };

  const { open } = IDBFactory.prototype;
  IDBFactory.prototype.open = function (...asked) {
    return begun(open.apply(this, asked), ["success", "error", "blocked"]);
  };
  const { transaction } = IDBDatabase.prototype;
  IDBDatabase.prototype.transaction = function (...asked) {
    return begun(transaction.apply(this, asked), ["complete", "abort"]);
  };

  // Between two timers Playwright's clock sends itself a message. Nothing else here sends any in this way.
  const { postMessage } = MessagePort.prototype;
  MessagePort.prototype.postMessage = function (...what) {
    const post = () => postMessage.apply(this, what);
    if (atWork.size > 0 && !window.storageIsHeld) waiting.push(post);
    else post();
  };
}
