import { messages } from '../messages.ts';

export const m = messages('statements', {
  betterOrWorseWith: 'Better or worse with',
  fewer: 'Fewer',
  foundOnLookingOrOpeningUp: 'Found on looking or opening up',
  howItGoes: 'How it goes',
  isItSo: '{label}: is it so?',
  itBeganAfter: 'It began after',
  jamInNozzleLooseBelt: 'jam in nozzle, loose belt …',
  more: '{membersCount} more',
  no: 'No',
  notAsUsual: 'Not as usual',
  notSure: 'Not sure',
  nothingOfThatNameTryAnother: 'Nothing of that name. Try another word.',
  probably: 'Probably',
  searchWhatWasFound: 'Search what was found',
  sometimes: 'Sometimes',
  swappedOrCompared: 'Swapped or compared',
  takeOff: 'Take off {label}',
  whenInAJob: 'When in a job',
  whereItShows: 'Where it shows',
  yes: 'Yes',
});
