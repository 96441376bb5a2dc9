import { describe, expect, it, onTestFinished, vi } from 'vitest';
import type { HostNotice } from '../../src-core/contract/host-api.ts';
import { StationChanges, waitBefore } from '../../src-renderer/host/station-changes.ts';

/** The browser's stream, played by the test. */
class PlayedSource extends EventTarget {
  static opened: PlayedSource[] = [];
  static readonly CLOSED = 2;
  /** Connecting: the browser would try again. */
  readyState = 0;
  isClosed = false;
  readonly address: string;

  constructor(address: string) {
    super();
    this.address = address;
    PlayedSource.opened.push(this);
  }

  close(): void {
    this.isClosed = true;
  }

  say(kind: string, data = ''): void {
    if (!this.isClosed) this.dispatchEvent(new MessageEvent(kind, { data }));
  }
}

function following() {
  PlayedSource.opened = [];
  vi.useFakeTimers();
  vi.stubGlobal('EventSource', PlayedSource);
  vi.stubGlobal('document', Object.assign(new EventTarget(), { visibilityState: 'visible' }));
  vi.stubGlobal('window', new EventTarget());
  const changes = new StationChanges();
  const heard: HostNotice[] = [];
  const turnAway = changes.follow((notice) => heard.push(notice));
  onTestFinished(() => {
    turnAway();
    vi.useRealTimers();
    vi.unstubAllGlobals();
  });
  const newest = () => PlayedSource.opened.at(-1) as PlayedSource;
  return { changes, heard, turnAway, newest, kinds: () => heard.map(({ kind }) => kind) };
}

describe('the stream of changes', () => {
  it('tells what comes, says when it is lost, and is taken up again by itself', () => {
    const { heard, newest, kinds } = following();
    expect(newest().address).toBe('/changes');
    newest().say('hello');
    const change = { topics: ['bench'], caseId: null, revision: null };
    newest().say('change', JSON.stringify(change));
    expect(heard).toEqual([{ kind: 'connected' }, { kind: 'change', change }]);
    newest().say('error');
    expect(kinds().at(-1)).toBe('lost');
    expect(PlayedSource.opened).toHaveLength(1);
    vi.advanceTimersByTime(500);
    expect(PlayedSource.opened).toHaveLength(2);
    newest().say('hello');
    expect(kinds().at(-1)).toBe('connected');
  });

  it('counts as lost after a silence, though the system says nothing; a beat is no silence', () => {
    const { newest, kinds } = following();
    newest().say('hello');
    for (let beats = 0; beats < 5; beats++) {
      vi.advanceTimersByTime(10_000);
      newest().say('beat');
    }
    expect(kinds()).toEqual(['connected']);
    vi.advanceTimersByTime(26_000);
    expect(kinds()).toContain('lost');
    expect(PlayedSource.opened[0]?.isClosed).toBe(true);
  });

  it('tries less and less often, never less than every fifteen seconds, and tablets not all at once', () => {
    expect([0, 1, 2, 3].map((tries) => waitBefore(tries, 1))).toEqual([500, 1000, 2000, 4000]);
    expect(waitBefore(30, 0.999)).toBeLessThanOrEqual(15_000);
    expect(waitBefore(30, 0)).toBe(7500);
    expect(waitBefore(3, 0)).not.toBe(waitBefore(3, 0.9));
    const { newest } = following();
    for (let minute = 0; minute < 10; minute++) {
      vi.advanceTimersByTime(6000);
      newest().say('error');
    }
    const tries = PlayedSource.opened.length;
    expect(tries).toBeGreaterThan(4);
    expect(tries).toBeLessThanOrEqual(11);
  });

  it('is let go where nobody looks, and taken up at once when somebody does or the network is back', () => {
    const { newest, kinds } = following();
    newest().say('hello');
    Object.assign(document, { visibilityState: 'hidden' });
    document.dispatchEvent(new Event('visibilitychange'));
    for (let beats = 0; beats < 3; beats++) {
      vi.advanceTimersByTime(10_500);
      newest().say('beat');
    }
    expect(newest().isClosed).toBe(true);
    Object.assign(document, { visibilityState: 'visible' });
    document.dispatchEvent(new Event('visibilitychange'));
    expect(PlayedSource.opened).toHaveLength(2);
    newest().say('hello');
    expect(kinds()).toEqual(['connected', 'connected']);
    newest().say('error');
    window.dispatchEvent(new Event('online'));
    expect(PlayedSource.opened).toHaveLength(3);
  });

  it('is looked at anew when a call gets no answer, and ends with the page', () => {
    const { changes, turnAway, newest, kinds } = following();
    newest().say('hello');
    changes.suspect();
    expect(kinds().at(-1)).toBe('lost');
    turnAway();
    vi.advanceTimersByTime(60_000);
    expect(PlayedSource.opened).toHaveLength(1);
  });

  it('tells a page that is let in no more from a station that is away', async () => {
    const { newest, kinds } = following();
    const asked: string[] = [];
    const answers = [403, 429];
    vi.stubGlobal('fetch', (address: string) => {
      asked.push(address);
      return Promise.resolve({ status: answers.shift() ?? 500 });
    });
    newest().say('hello');
    newest().say('error');
    expect(asked).toEqual([]);
    await vi.advanceTimersByTimeAsync(1000);
    newest().readyState = PlayedSource.CLOSED;
    newest().say('error');
    await vi.advanceTimersByTimeAsync(0);
    expect(kinds().at(-1)).toBe('shut-out');
    await vi.advanceTimersByTimeAsync(2000);
    newest().readyState = PlayedSource.CLOSED;
    newest().say('error');
    await vi.advanceTimersByTimeAsync(0);
    expect(asked).toEqual(['/api/access:me', '/api/access:me']);
    expect(kinds().at(-1)).toBe('lost');
  });
});
