import { CAUSE_NOT_IN_GUIDE } from '../knowledge/compile.ts';
import type { Knowledge } from '../knowledge/knowledge.ts';
import { isHedged, levelOfFinding } from '../session/finding-level.ts';
import { eventsInForce, type LoggedEvent } from '../session/logged-event.ts';
import { eventToday } from '../session/todays-ids.ts';
import type { AnsweredCase } from './link-strengths.ts';

/**
 * What a closed case tells of links: checks that were answered for sure, where one cause of the guide was confirmed. Null where
 * there were several causes, none of the guide, or no check. What was complained of is left out: it was there by choice.
 */
export function answeredCase(knowledge: Knowledge, log: readonly LoggedEvent[]): AnsweredCase | null {
  const events = eventsInForce(log).map(({ event }) => eventToday(knowledge, event));
  const closing = events.findLast((event) => event.kind === 'closed');
  const [only, ...more] = closing?.kind === 'closed' ? closing.causes : [];
  if (!only || more.length > 0 || !('cause' in only) || !knowledge.causeIndex.has(only.cause)) return null;
  if (only.cause === CAUSE_NOT_IN_GUIDE) return null;
  const complained = new Set(
    events.flatMap((event) =>
      event.kind === 'opened' ? event.intake.complaints.map(({ observation }) => observation) : [],
    ),
  );
  const answers = new Map<string, boolean>();
  for (const event of events) {
    // What is seen once a remedy was begun speaks of what that has left.
    if (event.kind === 'remedy-done') break;
    if (event.kind !== 'answered' || complained.has(event.observation)) continue;
    if (!knowledge.observationIndex.has(event.observation)) continue;
    // "Probably" is no answer to count by, and takes the place of one that was.
    const isSure = !isHedged(knowledge, event.observation, event.value);
    const level = isSure ? levelOfFinding(knowledge, event.observation, event.value) : -1;
    if (level >= 0) answers.set(event.observation, level > 0);
    else answers.delete(event.observation);
  }
  return answers.size > 0 ? { cause: only.cause, answers: Object.fromEntries(answers) } : null;
}
