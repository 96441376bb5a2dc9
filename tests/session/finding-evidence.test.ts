import { describe, expect, it } from 'vitest';
import {
  complaintsOf,
  evidenceOf,
  speaksFor,
  withoutGivenWay,
} from '../../src-core/session/finding-evidence.ts';
import { faultOfFinding, levelOfFinding, likelihoodOfFinding } from '../../src-core/session/finding-level.ts';
import { bruteForce } from '../inference/brute-force.ts';
import { guide } from './guide-of-all-scales.ts';

const HEDGES = ['present', 'sometimes', 'probably', 'probably-not'];

describe('what is said short of certainty', () => {
  it.each(['pops', 'strings'])('about "%s" moves belief, in this order, between absent and present', (id) => {
    const at = guide.observationIndex.get(id) ?? -1;
    const which = id === 'pops' ? 0 : 1;
    const { graph } = guide;
    const believed = ['absent', 'probably-not', 'probably', 'sometimes', 'present'].map((value) => {
      const evidence = evidenceOf(guide, { [id]: value });
      expect(evidence.map(({ observation: index }) => index)).toEqual([at]);
      return (
        bruteForce(
          graph,
          graph.causes.map(({ prior }) => prior),
          evidence,
        ).causes[which] ?? NaN
      );
    });
    expect(believed).toEqual([...believed].sort((a, b) => a - b));
    expect(new Set(believed).size).toBe(believed.length);
    // Nothing said leaves it between "probably not" and "probably".
    expect(believed[1]).toBeLessThan(0.01);
    expect(believed[2]).toBeGreaterThan(0.01);
  });

  it.each(HEDGES)('"%s" may be said of what has grades, with the grade left open', (value) => {
    expect(faultOfFinding(guide, 'strings', value)).toBeNull();
    expect(levelOfFinding(guide, 'strings', value)).toBe(value === 'probably-not' ? 0 : 1);
    const likelihood = likelihoodOfFinding(guide, 'strings', value) ?? [];
    expect(likelihood[1]).toBe(likelihood[2]);
  });

  it('counts as an answer for or against', () => {
    const speaks = (value: string) => evidenceOf(guide, { pops: value }).map(speaksFor);
    expect(HEDGES.map((value) => speaks(value))).toEqual([[true], [true], [true], [false]]);
    expect(speaks('absent')).toEqual([false]);
  });

  it('of what is complained of only leaves open how bad: it is there', () => {
    const complaint = [guide.observationIndex.get('strings') ?? -1];
    const [finding] = evidenceOf(guide, { strings: 'probably' }, {}, complaint);
    expect(finding).toMatchObject({ kind: 'likelihood', likelihood: [0, 1, 1] });
  });
});

describe('an unspecific complaint', () => {
  const at = (id: string) => guide.observationIndex.get(id) ?? -1;
  const said = { ugly: 'present', strings: 'heavy' };
  const observed = (complaints: readonly number[]) =>
    withoutGivenWay(guide, evidenceOf(guide, said, {}, complaints), complaints).map(
      ({ observation }) => observation,
    );

  it('says nothing more once it gave way to a telling one, and counts where it is all there is', () => {
    expect(observed([at('strings')])).toEqual([at('strings')]);
    expect(observed([at('ugly')])).toEqual([at('ugly'), at('strings')]);
    expect(observed([])).toEqual([at('ugly'), at('strings')]);
  });
});

describe('what is complained of', () => {
  const named = (...ids: string[]) => ids.map((id) => ({ observation: id }));
  const idsOf = (indices: readonly number[]) => indices.map((index) => guide.graph.observations[index]?.id);

  it('is what was named and is still there, in the order of the guide and once', () => {
    const findings = { strings: 'heavy', pops: 'present', 'one-side': 'absent' };
    expect(
      idsOf(complaintsOf(guide, named('strings', 'pops', 'strings', 'one-side', 'gone', 'ugly'), findings)),
    ).toEqual(['pops', 'strings']);
    expect(complaintsOf(guide, named('pops'), { pops: 'probably-not' })).toEqual([]);
  });

  it('is "ugly" only while nothing more telling is', () => {
    const findings = { ugly: 'present', pops: 'present' };
    expect(idsOf(complaintsOf(guide, named('ugly', 'pops'), findings))).toEqual(['pops']);
    expect(idsOf(complaintsOf(guide, named('ugly', 'pops'), { ...findings, pops: 'absent' }))).toEqual([
      'ugly',
    ]);
  });
});

describe('statements that say much the same', () => {
  /** What a cause that does not show the statement keeps of its likelihood. */
  const keptBy = (findings: Record<string, string>) =>
    evidenceOf(guide, findings).map((one) =>
      one.kind === 'likelihood'
        ? (one.likelihood[0] ?? 0) / (one.likelihood[1] ?? 1)
        : one.level > 0
          ? 0
          : Infinity,
    );

  it('count for less each, where they are of one kind', () => {
    expect(keptBy({ 'one-side': 'present' })).toEqual([0]);
    expect(keptBy({ 'one-side': 'present', 'after-an-hour': 'present' })).toEqual([0, 0]);
    for (const kept of keptBy({ 'one-side': 'present', 'one-corner': 'present' })) {
      expect(kept).toBeGreaterThan(0);
      expect(kept).toBeLessThan(0.5);
    }
  });

  it('do not when one of them is denied', () =>
    expect(keptBy({ 'one-side': 'present', 'one-corner': 'absent' })).toEqual([0, Infinity]));
});

describe('a circumstance that says what a statement says', () => {
  const said = (findings: Record<string, string>, conditions: Record<string, string | number>) =>
    evidenceOf(guide, findings, conditions).map(
      ({ observation: index }) => guide.graph.observations[index]?.id,
    );

  it('counts as the statement, once', () => {
    expect(said({}, { 'last-change': 'spool' })).toEqual(['began-with-spool']);
    expect(said({ 'began-with-spool': 'absent' }, { 'last-change': 'spool' })).toEqual(['began-with-spool']);
    expect(said({}, { 'last-change': 'nozzle' })).toEqual([]);
    expect(said({ pops: 'present' }, { 'last-change': 'spool' })).toEqual(['pops', 'began-with-spool']);
  });
});
