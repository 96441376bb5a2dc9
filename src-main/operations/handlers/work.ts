import type { Handler } from '../dispatcher.ts';

export const workLook: Handler<'work:look'> = ({ work }, { workId }) => ({ share: work.shareOf(workId) });

export const workStop: Handler<'work:stop'> = ({ work }, { workId }) => {
  work.stop(workId);
  return {};
};
