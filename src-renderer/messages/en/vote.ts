import { messages } from '../messages.ts';

export const m = messages('vote', {
  changeYourVote: 'Change your vote',
  howTheRoomVoted: 'How the room voted',
  nothingIsAskedJustNowLeave:
    'Nothing is asked just now. Leave this page open: the next question comes by itself.',
  ofVotes: 'of {all} votes',
  readAboutIt: 'Read about it',
  right: '✓ Right',
  seeHowTheRoomVoted: 'See how the room voted',
  tapOne: 'Tap one. {votesIn}.',
  text: '{result}:',
  theNextQuestionComesByItself: 'The next question comes by itself.',
  theTrainerAsks: 'The trainer asks',
  theVotesAreOut: 'The votes are out',
  thisDeviceVotesOnceSignIn:
    'This device votes once. Sign in with your PIN, and your answer to the last question is kept with your results.',
  vote: 'Vote',
  voteNow: 'Vote now',
  votesAreIn: '{count, plural, one {1 vote is in} other {# votes are in}}',
  votesComeFromTelephonesAndTablets:
    'Votes come from telephones and tablets that have joined. On this machine the trainer leads the <link>group session</link> and enters the hands.',
  votesComeFromTelephonesAndTabletsThat:
    '{votesIn}. Votes come from telephones and tablets that have joined.',
  votesInAllHandsAmongThem: '{all, plural, one {1 vote} other {# votes}} in all, hands among them.',
  whatDoWeCheckNext: 'What do we check next?',
  whatDoWeTry: 'What do we try?',
  whatIsAsked: 'what is asked',
  whatIsBehindIt: 'What is behind it?',
  whatIsWrong: 'What is wrong: {complaints}',
  youVoteAs: 'You vote as {initials}.',
  yourVote: 'Your vote',
  yourVoteInSentence: '✓ Your vote',
  yourVoteIsInYouCan:
    '<strong>Your vote is in.</strong> You can change it until the trainer reveals. {votesIn}.',
});
