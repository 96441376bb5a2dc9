/** Texts that a page, a log or a file could stumble over. */
const LONG_WORD = 'W'.repeat(70);
/** Turns what follows about, and never turns it back. */
const TURNED_ABOUT = 'Heron \u202e07-A';
const MARKUP = `<img src=x onerror="window.wasExecuted=1"><script>window.wasExecuted=1</script>`;
const TEMPLATE = '{{constructor.constructor("window.wasExecuted=1")()}} ${1+1} {@html "<b>"}';

export const hostile = {
  longWord: LONG_WORD,
  turnedAbout: TURNED_ABOUT,
  markup: MARKUP,
  template: TEMPLATE,
  /** As long as a note may be, in one word. */
  longNote: 'x'.repeat(1900),
  unseen: ['\u200b\u200b', '\u2060', '\ufeff\u200d'],
} as const;
