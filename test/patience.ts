// What a screen should come to is waited for on a busy machine too: nothing here is timed.
if (typeof document !== "undefined") {
  const { configure } = await import("@testing-library/preact");
  configure({ asyncUtilTimeout: 20_000 });
}

export {};
