// What this device keeps: small things at once (what was typed, unsent questions), large ones in a database (answers,
// reference lists). A device that may keep nothing still works; it only forgets.
const PREFIX = "fruitwright.";

export const local = {
  get(name) {
    try { return JSON.parse(localStorage.getItem(PREFIX + name)); } catch { return null; }
  },
  set(name, value) {
    try { localStorage.setItem(PREFIX + name, JSON.stringify(value)); } catch { /* full or forbidden: forget */ }
  },
  drop(name) {
    try { localStorage.removeItem(PREFIX + name); } catch { /* forbidden: nothing was kept */ }
  },
};

let opening = null;

function database() {
  opening ??= new Promise((resolve, reject) => {
    const asked = indexedDB.open("fruitwright", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore("kept");
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
  return opening;
}

async function within(mode, act) {
  const kept = (await database()).transaction("kept", mode).objectStore("kept");
  return new Promise((resolve, reject) => {
    const asked = act(kept);
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
}

export const large = {
  async get(name) {
    try { return await within("readonly", (kept) => kept.get(name)) ?? null; } catch { return null; }
  },
  async set(name, value) {
    try { await within("readwrite", (kept) => kept.put(value, name)); } catch { /* full or forbidden: forget */ }
  },
  async drop(start) {
    try {
      const names = await within("readonly", (kept) => kept.getAllKeys());
      for (const name of names.filter((one) => one.startsWith(start))) await within("readwrite", (kept) => kept.delete(name));
    } catch { /* nothing was kept */ }
  },
};
