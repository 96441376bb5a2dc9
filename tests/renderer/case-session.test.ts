import { describe, expect, it, onTestFinished, vi } from 'vitest';
import type { CaseEvent } from '../../src-core/contract/case-event.ts';
import { casebookLink } from '../../src-renderer/screens/case/case-link.ts';
import { CaseSession } from '../../src-renderer/screens/case/case-session.svelte.ts';
import { handMadeCaseView } from './hand-made-case-view.ts';
import { createInMemoryHost } from './in-memory-host.ts';

const answer: CaseEvent = { kind: 'answered', observation: 'vapour-at-head', value: 'slight' };
const { caseId } = handMadeCaseView();

/** A session that has read its case. */
async function readSession() {
  const { host, sent } = createInMemoryHost();
  const session = new CaseSession(casebookLink(host, caseId), caseId);
  const loading = session.load();
  sent[0]?.reply({ ok: true, value: handMadeCaseView() });
  await loading;
  sent.length = 0;
  return { session, sent };
}

describe('a case on a screen', () => {
  it('sends an event with the revision on the screen and takes the view that comes back', async () => {
    const { session, sent } = await readSession();
    const sending = session.send(answer);
    expect(sent.map(({ name, input }) => ({ name, input }))).toEqual([
      { name: 'case:send', input: { caseId, revision: 3, event: answer } },
    ]);
    sent[0]?.reply({ ok: true, value: handMadeCaseView({ revision: 4 }) });
    expect(await sending).toBe(true);
    expect(session.view?.revision).toBe(4);
    expect(session.isBusy).toBe(false);
  });

  it('sends a double press once', async () => {
    const { session, sent } = await readSession();
    const first = session.send(answer);
    expect(session.isBusy).toBe(true);
    expect(await session.send(answer)).toBe(false);
    sent[0]?.reply({ ok: true, value: handMadeCaseView({ revision: 4 }) });
    await first;
    expect(sent).toHaveLength(1);
  });

  it('does not answer the next question with the second half of a double tap', async () => {
    vi.useFakeTimers();
    onTestFinished(() => void vi.useRealTimers());
    const { session, sent } = await readSession();
    const first = session.send(answer);
    sent[0]?.reply({ ok: true, value: handMadeCaseView({ revision: 4, state: 'verdict' }) });
    expect(await first).toBe(true);
    vi.advanceTimersByTime(250);
    expect(await session.send({ kind: 'checking-resumed' })).toBe(false);
    expect(sent).toHaveLength(1);
    vi.advanceTimersByTime(250);
    expect(session.isBusy).toBe(false);
    void session.send({ kind: 'checking-resumed' });
    expect(sent).toHaveLength(2);
  });

  it('takes nothing while a tick is under way, though the moment after the send before it is over', async () => {
    vi.useFakeTimers();
    onTestFinished(() => void vi.useRealTimers());
    const { session, sent } = await readSession();
    const chosen = session.send(answer);
    sent[0]?.reply({ ok: true, value: handMadeCaseView({ revision: 4, state: 'verdict' }) });
    await chosen;
    const ticked = session.tick(0, true);
    await vi.waitFor(() => expect(sent).toHaveLength(2));
    vi.advanceTimersByTime(1000);
    expect(session.isBusy).toBe(true);
    // With the revision of before the tick it would be refused as stale.
    expect(await session.send({ kind: 'remedy-done' })).toBe(false);
    sent[1]?.reply({ ok: true, value: handMadeCaseView({ revision: 5, state: 'verdict' }) });
    expect(await ticked).toBe(true);
    expect(session.isBusy).toBe(false);
    void session.send({ kind: 'remedy-done' });
    expect(sent[2]?.input).toMatchObject({ revision: 5 });
  });

  it('says several things one after the other, and stops where one is not taken', async () => {
    const { session, sent } = await readSession();
    const saying = session.say([
      { observation: 'came-suddenly', value: 'present' },
      { observation: 'one-axis-only', value: 'not-sure' },
      { observation: 'now-and-then', value: 'sometimes' },
    ]);
    await vi.waitFor(() => expect(sent).toHaveLength(1));
    sent[0]?.reply({ ok: true, value: handMadeCaseView({ revision: 4 }) });
    await vi.waitFor(() => expect(sent).toHaveLength(2));
    expect(sent[1]?.input).toMatchObject({
      revision: 4,
      event: { kind: 'could-not-tell', observation: 'one-axis-only' },
    });
    sent[1]?.reply({ ok: false, error: { code: 'internal', message: 'gone' } });
    expect(await saying).toEqual(['came-suddenly']);
    expect(sent).toHaveLength(2);
    expect(session.isBusy).toBe(false);
  });

  it('sends nothing before the case has been read', async () => {
    const { host, sent } = createInMemoryHost();
    expect(await new CaseSession(casebookLink(host, caseId), caseId).send(answer)).toBe(false);
    expect(sent).toHaveLength(0);
  });

  it('shows where the case stands when it moved on elsewhere, and says that the entry was not taken', async () => {
    const { session, sent } = await readSession();
    const sending = session.send(answer);
    const current = handMadeCaseView({ revision: 9, state: 'verdict' });
    sent[0]?.reply({ ok: false, error: { code: 'stale', message: 'The case has moved on.', current } });
    expect(await sending).toBe(false);
    expect(session.view).toEqual(current);
    expect(session.notice).toContain('was not taken');
    expect(session.failure).toBeNull();
  });

  it('keeps an event that did not get through and sends it again on retry', async () => {
    const { session, sent } = await readSession();
    const sending = session.send(answer);
    sent[0]?.reply({ ok: false, error: { code: 'internal', message: 'Beadwright does not answer.' } });
    expect(await sending).toBe(false);
    expect(session.failure).toEqual({ message: 'Beadwright does not answer.', event: answer });
    expect(session.view?.revision).toBe(3);

    const retrying = session.retry();
    expect(sent[1]?.input).toEqual({ caseId, revision: 3, event: answer });
    sent[1]?.reply({ ok: true, value: handMadeCaseView({ revision: 4 }) });
    expect(await retrying).toBe(true);
    expect(session.failure).toBeNull();
  });

  it('never goes back to an older view', async () => {
    const { session, sent } = await readSession();
    const loading = session.load();
    sent[0]?.reply({ ok: true, value: handMadeCaseView({ revision: 2, state: 'stop-now' }) });
    await loading;
    expect(session.view?.revision).toBe(3);
    expect(session.view?.state).toBe('checking');
  });

  it('takes quick ticks one after the other, each on the revision that the one before left', async () => {
    const { session, sent } = await readSession();
    const ticks = [session.tick(0, true), session.tick(1, true)];
    await Promise.resolve();
    await Promise.resolve();
    expect(sent).toHaveLength(1);
    sent[0]?.reply({ ok: true, value: handMadeCaseView({ revision: 4 }) });
    await ticks[0];
    await Promise.resolve();
    expect(sent.map(({ input }) => input)).toEqual([
      { caseId, revision: 3, event: { kind: 'step-ticked', step: 0, isDone: true } },
      { caseId, revision: 4, event: { kind: 'step-ticked', step: 1, isDone: true } },
    ]);
    sent[1]?.reply({ ok: true, value: handMadeCaseView({ revision: 5 }) });
    expect(await Promise.all(ticks)).toEqual([true, true]);
  });

  it('says why a case cannot be read and reads it again on retry', async () => {
    const { host, sent } = createInMemoryHost();
    const session = new CaseSession(casebookLink(host, caseId), caseId);
    const loading = session.load();
    sent[0]?.reply({ ok: false, error: { code: 'not-found', message: 'There is no such case.' } });
    await loading;
    expect(session.failure?.message).toBe('There is no such case.');
    const retrying = session.retry();
    sent[1]?.reply({ ok: true, value: handMadeCaseView() });
    await retrying;
    expect(session.failure).toBeNull();
    expect(session.view?.number).toBe(7);
  });
});

describe('a case that moves on at another screen', () => {
  async function typingSession(isTyping: () => boolean) {
    const { host, sent } = createInMemoryHost();
    const session = new CaseSession(casebookLink(host, caseId), caseId, isTyping);
    const loading = session.load();
    sent[0]?.reply({ ok: true, value: handMadeCaseView() });
    await loading;
    sent.length = 0;
    return { session, sent };
  }

  it('is shown at once where nobody is typing, and not read again for what this screen has sent itself', async () => {
    const { session, sent } = await typingSession(() => false);
    const catching = session.catchUp(5);
    await vi.waitFor(() => expect(sent).toHaveLength(1));
    sent[0]?.reply({ ok: true, value: handMadeCaseView({ revision: 5 }) });
    await catching;
    expect(session.view?.revision).toBe(5);
    const sending = session.send(answer);
    const own = session.catchUp(6);
    sent[1]?.reply({ ok: true, value: handMadeCaseView({ revision: 6 }) });
    await sending;
    await own;
    expect(sent).toHaveLength(2);
  });

  it('waits while somebody is typing, until it is asked for', async () => {
    const { session, sent } = await typingSession(() => true);
    const catching = session.catchUp(4);
    await vi.waitFor(() => expect(sent).toHaveLength(1));
    sent[0]?.reply({ ok: true, value: handMadeCaseView({ revision: 4 }) });
    await catching;
    expect([session.view?.revision, session.waiting?.revision]).toEqual([3, 4]);
    session.showWaiting();
    expect([session.view?.revision, session.waiting]).toEqual([4, null]);
  });

  it('does not wait where a danger was found', async () => {
    const { session, sent } = await typingSession(() => true);
    const catching = session.catchUp(4);
    await vi.waitFor(() => expect(sent).toHaveLength(1));
    sent[0]?.reply({ ok: true, value: handMadeCaseView({ revision: 4, state: 'make-safe' }) });
    await catching;
    expect(session.view?.state).toBe('make-safe');
  });

  it('takes a note all the same; another entry is kept and offered once more', async () => {
    const { session, sent } = await typingSession(() => true);
    const stale = (revision: number) =>
      ({
        ok: false,
        error: { code: 'stale', message: 'moved on', current: handMadeCaseView({ revision }) },
      }) as const;
    const noting = session.send({ kind: 'noted', text: 'damp' });
    sent[0]?.reply(stale(4));
    await vi.waitFor(() => expect(sent).toHaveLength(2));
    expect(sent[1]?.input).toMatchObject({ revision: 4, event: { kind: 'noted', text: 'damp' } });
    sent[1]?.reply({ ok: true, value: handMadeCaseView({ revision: 5 }) });
    expect(await noting).toBe(true);

    const answering = session.send(answer);
    sent[2]?.reply(stale(6));
    expect(await answering).toBe(false);
    expect(session.notTaken).toEqual(answer);
    const again = session.sendNotTaken();
    expect(sent[3]?.input).toMatchObject({ revision: 6, event: answer });
    sent[3]?.reply({ ok: true, value: handMadeCaseView({ revision: 7 }) });
    expect(await again).toBe(true);
    expect(session.notTaken).toBeNull();
  });
});
