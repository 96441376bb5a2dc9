import { messages } from '../messages.ts';

export const m = messages('weightWords', {
  allButRulesItOut: 'all but rules it out',
  allButSettlesIt: 'all but settles it',
  clearly: 'clearly {side}',
  makesNoDifference: 'makes no difference',
  odds: 'odds × {short}',
  oddsWithShort: 'odds ÷ {short}',
  parted: '÷ {short}',
  times: '× {short}',
  slightly: 'slightly {side}',
  speaksAgainst: 'speaks against',
  strongly: 'strongly {side}',
  supports: 'supports',
  veryStrongly: 'very strongly {side}',
});
