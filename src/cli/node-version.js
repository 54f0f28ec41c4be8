/**
 * Why this Node cannot run Cloche, in one line; an empty text when it can. Written so that old Nodes can read it.
 * The range is that of package.json: 20.19 or newer of line 20, or 22.12 and newer.
 */
export function nodeComplaint(version) {
  const parts = version.replace(/^v/, "").split(".").map(Number);
  const major = parts[0];
  const minor = parts[1];
  const fits = (major === 20 && minor >= 19) || (major === 22 && minor >= 12) || major > 22;
  if (fits) return "";
  return `Cloche needs Node 20.19 or newer (of the 22 line, 22.12 or newer); this is ${version}. Install a newer Node and try again.`;
}
