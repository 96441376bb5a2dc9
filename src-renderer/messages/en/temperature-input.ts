import { messages } from '../messages.ts';

export const m = messages('temperatureInput', {
  canBeReadTwoWaysWrite: '"{typed}" can be read two ways: write {replace} or {replace2}.',
  enterANumberIn: 'Enter a number in {unit}.',
  itMustLieBetweenAnd: 'It must lie between {shownMin} and {shownMax} {unit}.',
});
