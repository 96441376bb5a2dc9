import { catalogue } from '../message.ts';

/** What is said to a trainee of a case that was worked, and of what to do next. */
export const trainingTexts = catalogue('training', {
  belongsToRealCases: 'That belongs to real cases; in practice nothing of it is needed.',
  caseOfSeed: 'Case {seed}',
  caseOfThisShop: 'A case of this shop',
  cases: '{count, plural, one {# case} other {# cases}}',
  causeNotInGuide: 'The cause of this case is not in the guide, so that nothing in it would cure the case.',
  causes: '{causes}',
  changedNothing:
    '{count, plural, one {# remedy} other {# remedies}} changed nothing: minutes spent, but each says something too.',
  comesBack: 'Something you missed comes back.',
  complaintNotInGuide: 'This guide does not know the complaint of this case any more.',
  drills: '{count, plural, one {# drill} other {# drills}}',
  foundMadeIt: 'What you had found made “{cause}” {percent} % likely.',
  happenedHere: 'This happened here. What was found then is what you find now.',
  lessonShown: '{lesson} ({what})',
  lessonShownBoth: '{lesson} ({cases}, {drills})',
  lookFirst: 'Look at the machine first.',
  notHowItCameOut: 'That is not how it came out. Look again.',
  notWhatYouFind: 'That is not what you find there. Look again.',
  oneMoreCheck:
    'Right, but what you had found made it only {percent} % likely: one more check would have made sure.',
  oneSignIsThere: 'Look again: one of these signs is there.',
  onlyClosedCases: 'Only a closed case can be practised: its cause has to be known.',
  partCause: 'The cause',
  partCautions: 'Cautions read first',
  partConfidence: 'How sure you were',
  partHabit: 'The habit behind it',
  partTime: 'Time beside the planner’s',
  readSheets: 'Read the sheets',
  signNotThere: 'That sign is not there. Look again at what you see.',
  teachesMostNow: '{topic} is where a case should teach you most now.',
  timeToTryAgain: 'You missed this, and it is time to try again.',
  twoCauses: 'Two causes were at work; each brought on part of the complaint.',
  wellFounded: 'What you had found made “{cause}” {percent} % likely: a well-founded call.',
  wouldHaveTold: '“{check}” would have told them apart: here it is {value}.',
});
