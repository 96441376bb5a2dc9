import { messages } from '../messages.ts';

export const m = messages('drills', {
  allRight: 'All right',
  anotherOne: 'Another one',
  answerEveryQuestion: 'Answer every question.',
  asked: 'Asked',
  backToTheCourse: 'Back to the course',
  choose: 'Choose …',
  drill: 'Drill',
  handItIn: 'Hand it in',
  keptFor: 'Kept for {initials}.',
  no: 'No: {right}',
  notYet: 'Not yet',
  right: 'Right',
  theDrill: 'the drill',
  theSameAgain: 'The same again',
  why: 'Why',
  yes: 'Yes',
  youSaid: 'You said',
  yourAnswers: 'Your answers',
});
