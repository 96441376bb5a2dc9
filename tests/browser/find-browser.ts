import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const CANDIDATES = [
  process.env['BEADWRIGHT_BROWSER'],
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** Path of a Chrome or Chromium on this machine; installs Debian's where this is root on Debian; otherwise says what to do. */
export function findBrowser(): string {
  const present = CANDIDATES.find((file) => file !== undefined && existsSync(file));
  if (present) return present;
  const mayInstall =
    process.platform === 'linux' && process.getuid?.() === 0 && existsSync('/usr/bin/apt-get');
  if (mayInstall) {
    execFileSync('apt-get', ['update'], { stdio: 'ignore' });
    execFileSync('apt-get', ['install', '-y', '--no-install-recommends', 'chromium'], {
      stdio: 'ignore',
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
    if (existsSync('/usr/bin/chromium')) return '/usr/bin/chromium';
  }
  throw new Error('no Chrome or Chromium found: install one, or name it in BEADWRIGHT_BROWSER');
}

/** Arguments that keep a test browser to itself: no sandbox where there is no user namespace, no calls home. */
export const BROWSER_ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];
