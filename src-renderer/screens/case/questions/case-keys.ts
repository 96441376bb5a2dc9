/** What a key does while a question is on the screen. */
export type KeyAction =
  | { readonly kind: 'answer'; readonly index: number }
  | { readonly kind: 'could-not-tell' | 'skip' | 'undo' | 'verdict' | 'search' | 'tell' };

interface PressedKey {
  readonly key: string;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
}

const ACTIONS: Readonly<Record<string, KeyAction>> = {
  t: { kind: 'could-not-tell' },
  s: { kind: 'skip' },
  u: { kind: 'undo' },
  v: { kind: 'verdict' },
  w: { kind: 'tell' },
  '/': { kind: 'search' },
};

/** The action of a key press, or null. Digits are answers, counted from 1. */
export function keyAction(press: PressedKey): KeyAction | null {
  if (press.ctrlKey || press.metaKey || press.altKey) return null;
  if (/^[1-9]$/.test(press.key)) return { kind: 'answer', index: Number(press.key) - 1 };
  return ACTIONS[press.key.toLowerCase()] ?? null;
}

/** Whether the focus is where characters are typed, or in a dialog of its own. */
export function isTypingPlace(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.closest('dialog')) return true;
  if (target instanceof HTMLInputElement)
    return !['checkbox', 'radio', 'button', 'submit'].includes(target.type);
  return (
    target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement || target.isContentEditable
  );
}
