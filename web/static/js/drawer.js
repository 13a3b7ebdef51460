// A drawer of this device: things kept under one key of theirs, whether there is a network or not.

/** The drawer `store` of the base `name`; what comes back runs one request in it. */
export function drawer(name, store, key) {
  const opened = () => new Promise((resolve, reject) => {
    const asked = indexedDB.open(name, 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(store, { keyPath: key });
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });

  return async function within(mode, work) {
    const base = await opened();
    try {
      return await new Promise((resolve, reject) => {
        const asked = work(base.transaction(store, mode).objectStore(store));
        asked.onsuccess = () => resolve(asked.result);
        asked.onerror = () => reject(asked.error);
      });
    } finally {
      base.close();
    }
  };
}
