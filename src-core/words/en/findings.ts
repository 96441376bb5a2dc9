import { catalogue } from '../message.ts';

/** What comes back, and the groups that cases are held against each other by, where neither guide nor people name them. */
export const findingTexts = catalogue('findings', {
  anyFault: 'Any fault',
  earlyShift: 'Early shift (6 to 14)',
  lateShift: 'Late shift (14 to 22)',
  monthOfAnyYear: '{month}',
  nightShift: 'Night (22 to 6)',
});
