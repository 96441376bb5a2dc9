import type { Handler } from '../dispatcher.ts';

export const trainingView: Handler<'training:view'> = ({ reasoner }, run) =>
  reasoner.run('training-view', run);
