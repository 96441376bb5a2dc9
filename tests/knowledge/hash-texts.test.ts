import { expect, it } from 'vitest';
import { contentHash } from '../../src-core/knowledge/content-hash.ts';
import { hashTexts } from '../../src-main/knowledge/hash-texts.ts';

// FIPS 180-4 is the reference of both; two implementations by other hands hold each other.
it('gives texts the same hash as the core, whatever letters they are of', () => {
  for (const texts of [
    [],
    [''],
    ['a', 'bc'],
    ['ab', 'c'],
    ['12 °C', 'naïve – ✓', '𝔛'],
    ['x'.repeat(100_000)],
  ])
    expect(hashTexts(texts)).toBe(contentHash(texts));
});

it('tells apart what is divided otherwise', () => {
  expect(hashTexts(['a', 'bc'])).not.toBe(hashTexts(['ab', 'c']));
});
