/** Hands a text to the browser as a file to save. */
export function saveText(name: string, type: string, text: string): void {
  saveBlob(name, new Blob([text], { type: `${type};charset=utf-8` }));
}

/** Hands data to the browser as a file to save. */
export function saveBlob(name: string, data: Blob): void {
  const address = URL.createObjectURL(data);
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  // the download has its own hold on the data once it began; a browser may begin only after this task
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
