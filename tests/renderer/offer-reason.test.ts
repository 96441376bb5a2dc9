import { expect, it } from 'vitest';
import { reasonForPlace } from '../../src-renderer/screens/case/remedies/offer-reason.ts';

const offer = (repairProbability: number, minutesHandsOn: number, minutesWaiting = 0) => ({
  repairProbability,
  minutesHandsOn,
  minutesWaiting,
  wasTried: null,
});
const first = offer(0.6, 10);

it.each([
  [offer(0.7, 15, 480), 'More likely to help, but takes longer'],
  [offer(0.7, 10), 'More likely to help'],
  [offer(0.2, 5), 'Quicker, but less likely to help'],
  [offer(0.2, 10), 'Less likely to help'],
  [offer(0.2, 40), 'Less likely to help, and takes longer'],
  [offer(0.61, 40), 'As likely to help, but takes longer'],
  [{ ...offer(0.9, 1), wasTried: 'not-cured' as const }, 'Tried: not cured'],
])('an alternative says why it stands where it does: %j', (one, reason) => {
  expect(reasonForPlace(one, first)).toBe(reason);
});
