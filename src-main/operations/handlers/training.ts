import { buildTrainingView } from '../../../src-core/training/training-view.ts';
import type { Handler } from '../dispatcher.ts';

export const trainingView: Handler<'training:view'> = ({ knowledge }, run) =>
  buildTrainingView(knowledge, run);
