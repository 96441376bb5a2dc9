import { messages } from '../messages.ts';

export const m = messages('experienceWords', {
  cannotBeToldFromTheGuide: 'Cannot be told from the guide yet',
  casesCount:
    '{cases, plural, one {1 closed case with a cause of the guide counts} other {# closed cases with a cause of the guide count}}.',
  casesWouldCount:
    '{cases, plural, one {1 closed case} other {# closed cases}} with a cause of the guide would count.',
  closedSinceThenDoNotCount:
    '{closedSince, plural, one {1 closed since then does not count} other {# closed since then do not count}}.',
  demoCasesCount:
    '{cases, plural, one {1 closed case of the demo shop with a cause of the guide counts} other {# closed cases of the demo shop with a cause of the guide count}}.',
  demoCasesWouldCount:
    '{cases, plural, one {1 closed case} other {# closed cases}} of the demo shop with a cause of the guide would count.',
  lessOftenThanTheGuideSays: 'Less often than the guide says',
  moreOftenThanTheGuideSays: 'More often than the guide says',
});
