import { messages } from '../messages.ts';

export const m = messages('guideUseWords', {
  allClosedCases: '{cases, plural, one {The one closed case} other {All # closed cases}}',
  noneOfTheHasYetToo: 'None of the {what} has {often} yet: too few to say. Those that did least come first.',
  nothingHereSaysThatTheGuide:
    'Nothing here says that the guide is too sure or too careful: everywhere what it said lies within what came true.',
  ofWithEachAtLeastOnce:
    'Of {enough} {what} with {often} each {did} at least once. Those that did least come first.',
  ofWithNeverTheyComeFirst: '{never} of {enough} {what} with {often} never {did}. They come first.',
  theClosedCasesOfTheDemo: 'The {cases} closed cases of the demo shop',
  theGuideWas: 'The guide was {parts}.',
  theGuideWasBoth: 'The guide was {tooSure}, and {tooCareful}.',
  theNewestClosedCases: 'The newest {cases} closed cases',
  theOddsWereKeptOfOf: '{which}; the odds were kept of {withOdds} of them.',
  to: '{replace} to {percent}',
  tooCarefulWhereItSaid: 'too careful where it said {under}',
  tooSureWhereItSaid: 'too sure where it said {over}',
  whichCases: '{which}.',
});
