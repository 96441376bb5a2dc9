import { messages } from '../messages.ts';

export const m = messages('conditionTopics', {
  moreAboutTheFilament: 'More about the filament',
  moreAboutTheMachine: 'More about the machine',
  roomAndPlace: 'Room and place',
  settingsOfThisJob: 'Settings of this job',
  whatChangedAndWhenItLast: 'What changed, and when it last worked',
  whatThePartSeesInUse: 'What the part sees in use',
  whereAndWhenItComes: 'Where and when it comes',
});
