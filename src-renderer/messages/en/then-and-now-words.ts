import { messages } from '../messages.ts';

export const m = messages('thenAndNowWords', {
  andWouldToday: '{before}, and would today.',
  andWouldTodayWith: '{before}, and would today with {percent}.',
  asItWas: 'as it was',
  downFromTo: 'down from {then} to {now}',
  guideAndSumsHaveChanged: 'The guide has changed since, and so have the sums.',
  halfAPercentagePoint: 'half a percentage point',
  movedByGuide: 'Through the guide alone no candidate moved by more than {points}.',
  movedByGuideAndBySums:
    'Through the guide alone no candidate moved by more than {guide}; through the sums alone by no more than {sums}.',
  movedBySums: 'Through the sums alone no candidate moved by more than {points}.',
  newAmongTheFirstSix: 'new among the first six',
  noLongerAmongTheFirstSix: 'no longer among the first six',
  none: 'none',
  notKnown: 'not known',
  nothingThatTouchesTheFindingsAnd:
    'Nothing that touches the findings and the first candidates of this case changed in it.',
  now: '{link}: {said}, now {share}',
  nowWithLinkSaid: '{link}: {said}; now {said2}',
  of100SuchCasesCameFrom: '{cause}: of 100 such cases {perHundred} came from it, now {perHundred2}',
  percentagePointS: '{rounded} {rounded, plural, one {percentage point} other {percentage points}}',
  place: '{place, selectordinal, one {#st} two {#nd} few {#rd} other {#th}}',
  quoted: '“{label}”',
  samePlaceLessLikely: 'same place, less likely',
  samePlaceLikelier: 'same place, likelier',
  stoodFirstWith: '{was} stood first with {percent}',
  theGuideHasChangedSince: 'The guide has changed since.',
  theGuideOfThatDayDid: '{cause}: the guide of that day did not have it',
  theNextStepIsTheSame: 'The next step is the same: {next}.',
  theNextStepWasTodayIt: 'The next step was {quoted}; today it would be {quoted2}.',
  theRemedyOfferedFirstIsThe: 'The remedy offered first is the same: {is}.',
  theRemedyOfferedFirstWasToday: 'The remedy offered first was {quoted}; today it would be {quoted2}.',
  theSumsHaveChangedSince: 'The sums have changed since.',
  todayWouldWith: '{before}. Today {is} would, with {percent}.',
  todaysGuideDoesNotHaveIt: '{cause}: today’s guide does not have it any more',
  todaysGuideHasNoCandidate: '{before}; today’s guide has no candidate.',
  upFromTo: 'up from {then} to {now}',
  whatChangedInTheGuideCannot:
    'What changed in the guide cannot be told: its files of that day are not to be had.',
  whatThisCaseConcludedOnThat:
    'What this case concluded on that day was not kept, and the guide of that day is not to be had.',
});
