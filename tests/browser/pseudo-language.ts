import type { Page } from 'playwright-core';
import { CLOSE, OPEN, PSEUDO_TAG, pseudoLanguage } from '../renderer/messages/pseudo-language.ts';

/** Texts that the host sent to a page: the guide, what the shop entered, and what the core says in sentences of its own. */
export type Sent = Set<string>;

/** Shows a page in the pseudo-language from its next loading on, and gathers what the host sends it. */
export async function speakPseudo(page: Page): Promise<Sent> {
  const texts = pseudoLanguage();
  await page.addInitScript(`localStorage.setItem('beadwright.language', '${PSEUDO_TAG}')`);
  await page.route(`**/languages/${PSEUDO_TAG}.json`, (route) => route.fulfill({ json: texts }));
  const sent: Sent = new Set();
  const take = (value: unknown): void => {
    if (typeof value === 'string') sent.add(plain(value));
    else if (typeof value === 'object' && value !== null)
      Object.entries(value).forEach(([key, one]) => {
        // Beside the message by id, the English of a refusal is for logs: on a page it would be missed.
        if (!(key === 'message' && 'said' in value)) take(one);
      });
  };
  page.on('response', (response) => {
    if (response.headers()['content-type']?.includes('json') && !response.url().includes('/languages/'))
      response.json().then(take, () => undefined);
  });
  return sent;
}

/** Texts of the page outside every bracket of which the host never sent some words. */
export async function outsideTheCatalogue(page: Page, sent: Sent): Promise<string[]> {
  const outside = await page.evaluate(textsOutside, [OPEN, CLOSE] as const);
  const long = [...sent].join('\n').toLowerCase();
  return outside.filter((text) =>
    text
      .split(/[·,:;.()“”→]|\s{2,}|\d[\d.]*(?: to \d[\d.]*)?\s*(?:%RH|%|°C|h\b|mm\b)?/)
      .map(plain)
      .some(
        (words) =>
          /[A-Za-z]{2}/.test(words) &&
          !BY_INTL.test(words) &&
          !LEFT.has(words) &&
          !long.includes(words.toLowerCase()),
      ),
  );
}

/** What never is a message: a language is named in itself. */
const LEFT: ReadonlySet<string> = new Set(['English']);

/** Names of months and days, and times, which Intl writes. */
const BY_INTL =
  /^(?:(?:\d+ )?(?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec)[a-z]*(?: \d+)?|(?:Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day|\d+ [AP]M)$/;

const plain = (text: string) => text.replace(/\s+/g, ' ').trim();

/** What stands on the page outside every bracket and has a word in it; runs in the page. */
function textsOutside([open, close]: readonly [string, string]): string[] {
  const found: string[] = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  let depth = 0;
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    let bare = '';
    for (const letter of node.textContent ?? '') {
      if (letter === open) depth += 1;
      else if (letter === close) depth -= 1;
      else if (depth === 0) bare += letter;
      else if (bare !== '' && !bare.endsWith('  ')) bare += '  ';
    }
    if (/[A-Za-z]{2}/.test(bare) && node.parentElement?.checkVisibility()) found.push(bare);
  }
  for (const element of document.querySelectorAll('[aria-label], [placeholder], [title]'))
    for (const name of ['aria-label', 'placeholder', 'title']) {
      const text = element.getAttribute(name) ?? '';
      if (/[A-Za-z]{2}/.test(text) && !text.includes(open)) found.push(text);
    }
  return found;
}
