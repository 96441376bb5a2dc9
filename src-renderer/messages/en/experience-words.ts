import { messages } from '../messages.ts';

export const m = messages('experienceWords', {
  cannotBeToldFromTheGuide: 'Cannot be told from the guide yet',
  closedCases: '{cases, plural, one {1 closed case} other {# closed cases}}',
  closedSinceThenDoNotCount: '; {closedSince} closed since then do not count',
  count: '{cases, plural, one {counts} other {count}}',
  lessOftenThanTheGuideSays: 'Less often than the guide says',
  moreOftenThanTheGuideSays: 'More often than the guide says',
  ofTheDemoShop: ' of the demo shop',
  withACauseOfTheGuide: '{some}{whose} with a cause of the guide {counting}{since}.',
  wouldCount: 'would count',
});
