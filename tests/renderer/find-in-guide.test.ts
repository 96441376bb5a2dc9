import { describe, expect, it } from 'vitest';
import { findInGuide } from '../../src-renderer/search/find-in-guide.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

const entries = [
  { label: 'Job stops part way', alsoCalled: ['print stops'] },
  { label: 'Popping while loading', alsoCalled: ['crackling', 'snap crackle'] },
  { label: 'Vapour at the head', alsoCalled: ['steam'], ask: 'Is there steam or popping?' },
];
const labels = (query: string) => findInGuide(entries, query).map((one) => one.label);

describe('search in the guide', () => {
  it('finds the beginnings of words, not their middles', () => {
    expect(labels('pop')).toEqual(['Popping while loading', 'Vapour at the head']);
    expect(labels('tops')).toEqual([]);
  });

  it('finds other words that people use', () => {
    expect(labels('steam')).toEqual(['Vapour at the head']);
    expect(labels('STEAM!')).toEqual(['Vapour at the head']);
  });

  it('needs every word, in any order', () => {
    expect(labels('loading popping')).toEqual(['Popping while loading']);
    expect(labels('loading steam')).toEqual([]);
  });

  it.each(['', '   ', '!?'])('finds nothing for %j', (query) => expect(labels(query)).toEqual([]));

  it('finds complaints of the shipped guide by the words of the trade', () => {
    const complaints = [...shippedKnowledge().observations.values()].filter((one) => one.complaint);
    expect(findInGuide(complaints, 'stringing')[0]?.id).toBe('stringing');
    expect(findInGuide(complaints, 'thermal runaway')[0]?.id).toBe('thermal-runaway-alarm');
  });
});
