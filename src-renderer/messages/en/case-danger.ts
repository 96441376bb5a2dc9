import { messages } from '../messages.ts';

export const m = messages('caseDanger', {
  danger: 'Danger: {signs}',
  dangerSignSeen: 'Danger sign seen',
  dangerSigns: 'Danger signs',
  doYouSeeAnyOfThese: 'Do you see any of these right now?',
  handTheCaseOver: 'Hand the case over',
  handTheCaseToTheLead: 'Hand the case to the lead or to whoever may work on mains and wiring in your shop.',
  iAmQualifiedForThisWork: 'I am qualified for this work and take over. My initials:',
  itIsOffAndSafe: 'It is off and safe',
  leaveItOffHandItOver: 'Leave it off. Hand it over.',
  noneOfThese: 'None of these',
  photographWhatCanBeSeenFrom: 'Photograph what can be seen from outside, covers closed.',
  stopPowerOffFirst: 'Stop. Power off first.',
  takeOver: 'Take over',
  theMachineStaysUnpluggedWithA:
    'The machine stays unplugged, with a note on it. Nobody switches it on to try.',
  whichOneTheCaseStopsHere: 'Which one? The case stops here, and the machine goes off first.',
  workOnThisMachineIsFor: '{signs}: work on this machine is for a qualified person now.',
  yesMakeItSafeFirst: 'Yes, make it safe first',
  itWasPressedByMistake: 'It was pressed by mistake',
  leaveItAsItIs: 'Leave it as it is',
  takeADangerSignBack: 'Take a danger sign back?',
  whatWasEnteredLastMayBe:
    'A danger sign has stopped this case, and what was entered last may be that sign. Take it back only if it was pressed by mistake. If it was seen, the power stays off until somebody qualified has looked.',
});
