import { messages } from '../messages.ts';

export const m = messages('experience', {
  alsoHowOftenEachCauseShows:
    'Also how often each cause shows what was looked for <part>where it was answered often enough: see below</part>',
  answeredAtLeastFiveTimesIn:
    'Answered at least five times in closed cases of one cause. New cases go by these figures.',
  answeredAtLeastFiveTimesInClosed:
    'Answered at least five times in closed cases of one cause. New cases go by the guide’s figures.',
  backToWhatComesBack: 'Back to what comes back',
  bothTogether: 'Both together',
  cases: '{named}, {cases} cases',
  cause: 'Cause',
  causesThatTheGuideDoesNot: 'Causes that the guide does not have',
  closeCasesWithTheirCausesAfter:
    'Close cases with their causes: after some twenty the shop’s own habits begin to show here.',
  closedUpToAndWith: 'Closed up to and with',
  details: 'Details',
  drawn: 'Drawn',
  everyCaseThatIsClosedCounts: 'Every case that is closed counts.',
  expected: 'Expected',
  expectedWhatTheGuideWouldHave:
    'Expected: what the guide would have expected of these very cases, under the circumstances of each. The factor multiplies the odds of a cause; its gamma prior has mean 1 and weighs as much as two expected cases (gamma-Poisson shrinkage). In brackets the 5 and 95 % points. A printer’s own cases are held against the shop’s factor, which weighs as much as four. The newest 2,000 closed cases count; those of the demo only while the shop has none of its own. Strengths of links: checks answered for sure in cases of one confirmed cause, before a remedy was done; the guide’s own figure weighs as much as 8 answers where it says one half, 22 at a tenth and 200 at a hundredth (beta-binomial). Which causes are confirmed leans on what was found, so these figures flatter the guide’s stronger links a little.',
  guide: 'Guide',
  guideAndOwnCases: 'Guide and own cases',
  howOftenACauseShowsIt: 'How often a cause shows it',
  howSure: 'How sure',
  laterOnesDoNotCountUntil: 'Later ones do not count until you say so.',
  moreDifferLess: '{linkCount} more differ less.',
  namedByHandWhenACase: 'Named by hand when a case was closed: tell whoever writes the guide.',
  newCasesGoBy: 'New cases go by',
  nothingClosedYet: 'Nothing closed yet',
  of: 'Of',
  ofWithSeenOf: '{seen} of {of}',
  ownCases: 'Own cases',
  ownCasesUpToADay: 'Own cases up to a day',
  ownExperience: 'Own experience',
  print: 'Print',
  showAll: 'Show all {rowsCount}',
  showAllWithLinksCount: 'Show all {linksCount}',
  showTheFirstOnly: 'Show the first only',
  theGuideAlone: 'The guide alone',
  theWholeShop: 'The whole shop',
  there: 'There',
  timesAsOften: 'Times as often',
  to: '({times} to {times2})',
  toWithPercentPercent2: '({percent} to {percent2})',
  whatTheShopsOwnCasesSay: 'what the shop’s own cases say',
  whatThisShopsClosedCasesSay:
    'What this shop’s closed cases say beside the guide. A case keeps what it was opened with.',
  whatWasLookedFor: 'What was looked for',
});
