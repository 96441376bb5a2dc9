// Files of their own, brought when they are shown: all of them together are many times the program.
const addresses = import.meta.glob<string>('../../resources/drawings/*.svg', {
  query: '?url',
  import: 'default',
  eager: true,
});
const byId = new Map(
  Object.entries(addresses).map(([file, address]) => [file.replace(/^.*\/|\.svg$/g, ''), address]),
);
const read = new Map<string, Promise<string>>();

/** Whether there is a drawing for an observation. */
export function hasDrawing(id: string): boolean {
  return byId.has(id);
}

/** Where an observation's drawing lies; undefined where it has none. */
export function drawingAddress(id: string): string | undefined {
  return byId.get(id);
}

/** The drawing's own text, inlined so that it takes the ink of its place; empty where it cannot be had now. */
export function drawingText(address: string): Promise<string> {
  const text =
    read.get(address) ??
    fetch(address).then((response) => {
      if (!response.ok) throw new Error(`${address} answered ${response.status}`);
      return response.text();
    });
  read.set(address, text);
  return text.catch(() => {
    read.delete(address);
    return '';
  });
}
