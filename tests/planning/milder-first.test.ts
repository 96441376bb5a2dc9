import { expect, it } from 'vitest';
import { milderWorthTrying } from '../../src-core/planning/milder-first.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';
import { contextOfCase } from '../../src-main/command/diagnose.ts';
import { reasonAbout } from '../../src-core/session/reason-about.ts';

const GREASE = 0;
const NUT = 1;
const remedies = [
  { id: 'grease', minutes: 20, removes: [{ cause: GREASE, probability: 0.9 }] },
  { id: 'new-nut', minutes: 60, removes: [{ cause: NUT, probability: 0.9 }], after: ['grease'] },
];

it('a milder remedy comes first while it has a fair share of the chance, and no longer', () => {
  const afterOfNut = (dry: number, worn: number) =>
    milderWorthTrying(remedies, [
      { causes: [GREASE], probability: dry },
      { causes: [NUT], probability: worn },
    ])[1]?.after;
  expect(afterOfNut(0.4, 0.4)).toEqual(['grease']);
  expect(afterOfNut(0.15, 0.7)).toEqual(['grease']);
  expect(afterOfNut(0.1, 0.8)).toEqual([]);
  // Both at once: the nut alone cures nothing, so grease keeps its place.
  const [, nut] = milderWorthTrying(remedies, [{ causes: [GREASE, NUT], probability: 0.9 }]);
  expect(nut?.after).toEqual(['grease']);
});

// Common practice: brass dust below the nut and play by hand are the nut; nobody greases first.
it('a lead screw nut found worn is not greased first', () => {
  const knowledge = shippedKnowledge();
  const findings = { 'irregular-layers': 'present', 'dust-below-z-nut': 'present', 'z-backlash': 'large' };
  const { next } = reasonAbout(knowledge, contextOfCase(knowledge, { conditions: {}, findings, tried: [] }));
  expect(next.id).not.toBe('clean-lead-screw');
});
