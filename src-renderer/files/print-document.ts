/**
 * Opens the browser's print window for an HTML document of one file, from where it is printed or saved as PDF. The document is
 * built anew in an empty frame: its own styles are taken over as a style sheet, as the program's policy lets no inline ones in, and
 * nothing in it is run.
 */
export async function printDocument(html: string): Promise<void> {
  // Our own document has its one style element in its head, and escapes whatever people wrote. Parsed with it, the policy would complain.
  const [style = '', css = ''] = /<style>([^<]*)<\/style>/.exec(html) ?? [];
  const parsed = new DOMParser().parseFromString(html.replace(style, ''), 'text/html');
  const frame = document.createElement('iframe');
  // It must be laid out to be printed; out of sight, and out of the way of readers and keys.
  frame.className = 'print-frame';
  frame.setAttribute('aria-hidden', 'true');
  frame.tabIndex = -1;
  document.body.append(frame);
  const [inside, page] = [frame.contentWindow, frame.contentDocument];
  if (!inside || !page) throw new Error('the document could not be laid out for printing');
  const SheetOfFrame = (inside as Window & typeof globalThis).CSSStyleSheet;
  const sheet = new SheetOfFrame();
  sheet.replaceSync(css);
  page.adoptedStyleSheets = [sheet];
  page.title = parsed.title;
  page.documentElement.lang = parsed.documentElement.lang;
  page.body.replaceChildren(...[...parsed.body.children].map((one) => page.importNode(one, true)));
  await Promise.all([...page.images].map((image) => image.decode().catch(() => undefined)));
  inside.addEventListener('afterprint', () => frame.remove(), { once: true });
  inside.focus();
  inside.print();
}
