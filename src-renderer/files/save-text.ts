/** Hands a text, in parts, to the reader as a file, by the browser's own download. */
export function saveText(parts: readonly string[], fileName: string, type: string): void {
  const address = URL.createObjectURL(new Blob([...parts], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = fileName;
  document.body.append(link);
  link.click();
  link.remove();
  // The download has its own hold on the data by then.
  window.setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
