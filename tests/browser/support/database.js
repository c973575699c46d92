// What lies in the app's database, read and written past the app.

const NAME = "oventide";

/** Every text in every store, by store and key, but for what plans promised: that is written once it is shown. */
export async function storedIn(page) {
  const { plan, ...stored } = await all(page);
  return stored;
}

/** What plans promised, as it is kept; empty where nothing is. */
export async function promisesIn(page) {
  const { plan } = await all(page);
  return plan.promises ?? "";
}

function all(page) {
  return page.evaluate(async (name) => {
    const done = (request) =>
      new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
      });
    const database = await done(indexedDB.open(name));
    const names = [...database.objectStoreNames];
    const transaction = database.transaction(names);
    const stored = {};
    for (const store of names) {
      const keys = await done(transaction.objectStore(store).getAllKeys());
      const values = await done(transaction.objectStore(store).getAll());
      stored[store] = Object.fromEntries(keys.map((key, place) => [key, values[place]]));
    }
    database.close();
    return stored;
  }, NAME);
}

/** Puts a text into a store. */
export function putInto(page, store, key, text) {
  return page.evaluate(
    ([name, store, key, text]) =>
      new Promise((resolve, reject) => {
        const opening = indexedDB.open(name);
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const database = opening.result;
          const transaction = database.transaction(store, "readwrite");
          transaction.objectStore(store).put(text, key);
          transaction.oncomplete = () => {
            database.close();
            resolve();
          };
          transaction.onabort = () => reject(transaction.error);
        };
      }),
    [NAME, store, key, text],
  );
}

/** The kitchen's facts as they are stored. */
export async function factsIn(page) {
  const { kitchen } = await storedIn(page);
  return JSON.parse(kitchen.kitchen ?? '{"facts":{}}').facts;
}

/** How many entries the log of the only bake has. */
export async function entriesIn(page) {
  return Object.keys((await storedIn(page)).bakes).length;
}
