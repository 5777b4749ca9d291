// Entries that the records do not have yet. Each is written here before it is sent and taken out
// when the records acknowledged it, so that neither a lost connection nor a closed page loses one.

window.outbox = (() => {
  "use strict";

  const TABLE = "entries";
  const STRICT = { durability: "strict" }; // on the disk before the entry counts as kept

  let opening = null;

  function open() {
    opening ??= new Promise((resolve, reject) => {
      const request = indexedDB.open("puttwright", 1);
      request.onupgradeneeded = () => {
        request.result.createObjectStore(TABLE, { keyPath: "number", autoIncrement: true });
      };
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    }).then(onDisk, inMemory);
    return opening;
  }

  function onDisk(database) {
    database.onversionchange = () => database.close();

    function transact(mode, work) {
      return new Promise((resolve, reject) => {
        const transaction = database.transaction(TABLE, mode, STRICT);
        const request = work(transaction.objectStore(TABLE));
        transaction.oncomplete = () => resolve(request.result);
        transaction.onabort = () => reject(transaction.error);
      });
    }

    return {
      lasting: true,
      all: () => transact("readonly", (table) => table.getAll()),
      put: (entry, replaced) => transact("readwrite", (table) => {
        if (replaced) table.delete(replaced);
        return table.put(entry);
      }),
      remove: (number) => transact("readwrite", (table) => table.delete(number)),
    };
  }

  // Where the browser keeps nothing (some private windows) an entry lives as long as its page.
  function inMemory() {
    const entries = new Map();
    let last = 0;
    return {
      lasting: false,
      all: async () => [...entries.values()],
      put: async (entry, replaced) => {
        entries.delete(replaced);
        last = Math.max(last + 1, entry.number ?? 0);
        const number = entry.number ?? last;
        entries.set(number, { ...entry, number });
        return number;
      },
      remove: async (number) => { entries.delete(number); },
    };
  }

  return {
    // Everything kept, in the order in which it was entered.
    all: async () => (await open()).all(),
    // Keep an entry, new or changed; what it replaces goes in the same breath. Its number.
    put: async (entry, replaced) => (await open()).put(entry, replaced),
    remove: async (number) => (await open()).remove(number),
    lasting: async () => (await open()).lasting,
  };
})();
