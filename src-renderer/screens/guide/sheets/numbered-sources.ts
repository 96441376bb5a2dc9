import { m } from '../../../messages/en/guide.ts';

interface Provenance {
  readonly source: string;
  readonly confidence?: string | undefined;
}

/** Sources of one sheet: published ones get numbers in the order in which they are met. */
export interface NumberedSources {
  /** "common practice", "estimate", "[2]", with the confidence where it is given. */
  readonly markOf: (provenance: Provenance) => string;
  /** Published sources without the word "published". */
  readonly published: readonly string[];
}

export function numberSources(sources: readonly string[]): NumberedSources {
  const published = [...new Set(sources.filter(isPublished).map(plain))];
  return {
    published,
    markOf: ({ source, confidence }) => {
      const mark = isPublished(source) ? `[${published.indexOf(plain(source)) + 1}]` : source;
      return confidence ? m.confidence({ mark, confidence }) : mark;
    },
  };
}

function isPublished(source: string): boolean {
  return source.startsWith('published: ');
}

function plain(source: string): string {
  return source.replace(/^published: /, '');
}
