import { describe, expect, it } from 'vitest';
import { inOtherWords } from '../../src-core/words/in-other-words.ts';
import { createWordBook } from '../../src-core/words/word-book.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const book = createWordBook(shippedKnowledge().words);

describe('a search of texts, widened by the words of the trade', () => {
  it('takes a word by its beginning and by its row', () => {
    const [texts = []] = inOtherWords('clogging', book);
    expect(texts[0]).toBe('clog');
    expect(texts).toContain('jam');
  });

  it('takes a phrase as one', () => {
    const [texts = [], ...more] = inOtherWords('under extrusion', book);
    expect(more).toEqual([]);
    expect(texts).toEqual(expect.arrayContaining(['under-extrusion', 'too little plastic']));
  });

  it('leaves numbers, marks and case numbers as they are', () =>
    expect(inOtherWords('ABS 0.8 #12 50 %', book)).toEqual([['abs'], ['0.8'], ['#12'], ['50'], ['%']]));

  it('finds nothing to look for in nothing', () => expect(inOtherWords('  ', book)).toEqual([]));
});
