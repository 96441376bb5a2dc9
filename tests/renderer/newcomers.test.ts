import { expect, it } from 'vitest';
import { newcomersOf } from '../../src-renderer/screens/session/newcomers.ts';

it.each([
  ['AB, CD EF', ['AB', 'CD', 'EF'], []],
  ['ab;cd,,  ab', ['ab', 'cd'], []],
  ['Åse, J.K., 12, TOOLONG', ['Åse'], ['J.K.', '12', 'TOOLONG']],
  ['  ', [], []],
])('newcomers typed as "%s" are %j, and %j are nobody', (typed, initials, faulty) => {
  expect(newcomersOf(typed)).toEqual({ initials, faulty });
});
