import { afterAll } from "vitest";

// Files share a worker, so each begins in an empty window with empty storage, whatever the one before left there.
if ("indexedDB" in globalThis) {
  const { IDBFactory } = await import("fake-indexeddb");
  globalThis.indexedDB = new IDBFactory();
}
if (typeof document !== "undefined") {
  const { cleanup, configure } = await import("@testing-library/preact");
  // What a screen should come to is waited for on a busy machine too: nothing here is timed.
  configure({ asyncUtilTimeout: 20_000 });
  document.body.replaceChildren();
  window.localStorage.clear();
  window.sessionStorage.clear();
  window.history.replaceState(null, "", "http://localhost:3000/");
  Reflect.deleteProperty(navigator, "locks");
  afterAll(() => cleanup());
}
