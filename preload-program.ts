import type { HtmlTagDescriptor, Plugin } from 'vite';
import { PROGRAM } from './first-load.ts';

/** The typeface of the first words, in the letters of English. */
const FACES = /atkinson-hyperlegible-next-latin-(?:400|600|700)-normal-.*\.woff2$/;

/**
 * Names in the page what it always brings: the program, which begins only when the language of the page is known, and its typeface. A
 * browser then brings them at once, not one after the other.
 */
export function preloadProgram(): Plugin {
  return {
    name: 'preload-program',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler(html, { bundle = {} }) {
        const needed = new Set<string>();
        for (const chunk of Object.values(bundle))
          if (chunk.type === 'chunk' && chunk.name === PROGRAM) needed.add(chunk.fileName);
        for (const file of needed) {
          const chunk = bundle[file];
          if (chunk?.type === 'chunk') for (const other of chunk.imports) needed.add(other);
        }
        const scripts = [...needed].filter((file) => !html.includes(file));
        const faces = Object.keys(bundle).filter((file) => FACES.test(file));
        return [
          ...scripts.map((file) => link({ rel: 'modulepreload', crossorigin: true, href: `./${file}` })),
          ...faces.map((file) =>
            link({ rel: 'preload', as: 'font', type: 'font/woff2', crossorigin: true, href: `./${file}` }),
          ),
        ];
      },
    },
  };
}

function link(attrs: Readonly<Record<string, string | boolean>>): HtmlTagDescriptor {
  return { tag: 'link', attrs: { ...attrs }, injectTo: 'head' };
}
