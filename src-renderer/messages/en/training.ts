import { messages } from '../messages.ts';

export const m = messages('training', {
  aboutOfTopicsMostLikelyBetween: 'about {about} of {of} topics, most likely between {low} and {high}',
  chanceToHaveIt: 'Chance to have it',
  easy: 'Easy',
  hard: 'Hard',
  hasIt: 'has it',
  middling: 'Middling',
  nobodyIsEnteredYetSoResults:
    'Nobody is entered yet, so results are not kept. <link>Add people under Shop</link>.',
  nobodyResultsAreNotKept: 'Nobody: results are not kept',
  notTriedYet: 'not tried yet',
  notYet: 'not yet',
  of: '{part} of {all}',
  ofTopics: '{about} of {of} topics',
  probablyHasIt: 'probably has it',
  restsOn: 'Rests on',
  so: 'So',
  topic: 'Topic',
  whoIsLearning: 'Who is learning',
});
