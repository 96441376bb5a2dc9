const STORE_KEY = 'beadwright.single-keys';

/** Whether single keys answer questions; can be switched off, since speech input may type them by accident. */
class SingleKeys {
  isOn = $state(true);

  constructor() {
    try {
      this.isOn = window.localStorage.getItem(STORE_KEY) !== 'off';
    } catch {
      // No store: the keys are on.
    }
  }

  switchTo(isOn: boolean): void {
    this.isOn = isOn;
    try {
      window.localStorage.setItem(STORE_KEY, isOn ? 'on' : 'off');
    } catch {
      // Lasts as long as the window.
    }
  }
}

export const singleKeys = new SingleKeys();
