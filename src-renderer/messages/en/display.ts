import { messages } from '../messages.ts';

export const m = messages('display', {
  itLastsAsLongAsThis: 'It lasts as long as this page: {message}',
});
