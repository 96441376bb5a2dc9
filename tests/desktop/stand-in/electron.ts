/**
 * A stand-in for Electron's main-process API, as far as this program uses it. Windows are pages of a real Chromium;
 * the preload runs in the page before its scripts, behind a `require` that knows "electron" alone; messages pass
 * through structured cloning and carry a sender frame. The app scheme, which Chromium does not know, is served at an
 * address of its own and translated both ways.
 */
import { EventEmitter } from 'node:events';
import { readFileSync, rmSync } from 'node:fs';
import path from 'node:path';
import { chromium, type Browser, type BrowserContext, type Frame, type Page } from 'playwright-core';
import { BROWSER_ARGUMENTS, findBrowser } from '../../browser/find-browser.ts';

const STAND_IN_ORIGIN = 'http://beadwright.stand-in.test';
const userData = process.env['STAND_IN_USER_DATA'] ?? '';
const debuggingPort = Number(process.env['STAND_IN_DEBUGGING_PORT'] ?? 0);

type Listener = (event: unknown, ...args: unknown[]) => unknown;
const handlers = new Map<string, Listener>();
const schemes = new Map<string, (request: { url: string }) => Promise<Response>>();
let browser: Browser | null = null;
const windows: BrowserWindow[] = [];
const answers = (process.env['STAND_IN_ANSWERS'] ?? '').split(',').filter(Boolean).map(Number);

/** What somebody does while a message stands there: takes the faulty file out. */
function mendGuide(): void {
  const file = process.env['STAND_IN_FAULTY_FILE'];
  if (file) rmSync(file, { force: true });
}

class App extends EventEmitter {
  whenReady = () => Promise.resolve();
  getAppPath = () => process.cwd();
  getPath = (name: string) => path.join(userData, name);
  requestSingleInstanceLock = () => process.env['STAND_IN_IS_SECOND'] !== '1';
  quit = () => {
    for (const window of windows) window.emit('close');
    let isPrevented = false;
    this.emit('will-quit', { preventDefault: () => (isPrevented = true) });
    if (!isPrevented) this.exit(0);
  };
  exit = (code = 0) => {
    void browser?.close().finally(() => setTimeout(() => process.exit(code), 100));
    if (!browser) process.exit(code);
  };
}
export const app = new App();

export const dialog = {
  /** Answers what the test has laid down, once each; then with the last button. */
  showMessageBox: ({ message, detail, buttons }: { message: string; detail: string; buttons: string[] }) => {
    console.log(`stand-in message box: ${message}\n${detail}\n[${buttons.join('] [')}]`);
    const answer = answers.shift();
    if (answer !== undefined) mendGuide();
    return Promise.resolve({ response: answer ?? buttons.length - 1 });
  },
  /** Saves where the test has said; where it has said nothing, somebody thinks better of it. */
  showSaveDialog: (_window: unknown, { defaultPath }: { defaultPath: string }) => {
    console.log(`stand-in save dialog: ${defaultPath}`);
    const folder = process.env['STAND_IN_SAVE_INTO'] ?? '';
    return Promise.resolve({ canceled: folder === '', filePath: folder && path.join(folder, defaultPath) });
  },
  showErrorBox: (title: string, content: string) => console.log(`stand-in error box: ${title}\n${content}`),
};

export const ipcMain = {
  handle: (channel: string, listener: Listener) => {
    if (handlers.has(channel)) throw new Error(`Attempted to register a second handler for '${channel}'`);
    handlers.set(channel, listener);
  },
};

export const protocol = {
  registerSchemesAsPrivileged: () => undefined,
  handle: (scheme: string, handler: (request: { url: string }) => Promise<Response>) => {
    schemes.set(scheme, handler);
  },
};

export const permissions: { request: unknown; check: unknown } = { request: null, check: null };
export const session = {
  defaultSession: {
    setPermissionRequestHandler: (handler: unknown) => (permissions.request = handler),
    setPermissionCheckHandler: (handler: unknown) => (permissions.check = handler),
  },
};

class WebContents extends EventEmitter {
  page: Page | null = null;
  isDestroyed = () => this.page === null || this.page.isClosed();
  /** To the preload of the page, cloned as Electron does; a page that is just leaving hears nothing. */
  send = (channel: string, message: unknown) => {
    void this.page
      ?.evaluate(
        ([to, what]) => window.dispatchEvent(new CustomEvent('stand-in-message', { detail: [to, what] })),
        [channel, structuredClone(message)] as const,
      )
      .catch(() => undefined);
  };
  printToPDF = async ({ pageSize, printBackground }: { pageSize: string; printBackground: boolean }) => {
    if (!this.page) throw new Error('there is no page to print');
    return this.page.pdf({ format: pageSize, printBackground });
  };
  windowOpenHandler: ((details: { url: string }) => { action: string }) | null = null;
  setWindowOpenHandler = (handler: (details: { url: string }) => { action: string }) => {
    this.windowOpenHandler = handler;
  };
}

interface WindowOptions {
  readonly width: number;
  readonly height: number;
  readonly webPreferences: Readonly<Record<string, unknown>> & { readonly preload?: string };
}

export class BrowserWindow extends EventEmitter {
  webContents = new WebContents();
  private readonly options: WindowOptions;

  constructor(options: WindowOptions) {
    super();
    const { contextIsolation, sandbox, nodeIntegration } = options.webPreferences;
    // The stand-in always isolates; a program that asks for less must not pass here.
    if (contextIsolation !== true || sandbox !== true || nodeIntegration !== false) {
      throw new Error('the stand-in refuses a window without isolation and sandbox');
    }
    this.options = options;
    windows.push(this);
    app.emit('web-contents-created', {}, this.webContents);
  }

  async loadURL(url: string): Promise<void> {
    if (browser) return this.loadBeside(browser, url);
    browser = await chromium.launch({
      executablePath: findBrowser(),
      args: [...BROWSER_ARGUMENTS, `--remote-debugging-port=${debuggingPort}`],
    });
    const { width, height } = this.options;
    const context = await browser.newContext({ viewport: { width, height } });
    await serveSchemes(context);
    await injectPreload(context, this.options.webPreferences.preload ?? '');
    const page = await context.newPage();
    this.webContents.page = page;
    await this.guardPage(context, page);
    await page.goto(url.replace(/^app:\/\/beadwright/, STAND_IN_ORIGIN));
    this.emit('ready-to-show');
    console.log(`stand-in ready ${debuggingPort}`);
  }

  /** A further window: apart from the first, as it has no preload. */
  private async loadBeside(running: Browser, url: string): Promise<void> {
    const { width, height, webPreferences } = this.options;
    if (webPreferences.preload !== undefined) throw new Error('one window has the preload, no further one');
    const context = await running.newContext({
      viewport: { width, height },
      javaScriptEnabled: webPreferences['javascript'] !== false,
    });
    await serveSchemes(context);
    const page = await context.newPage();
    this.webContents.page = page;
    const answer = await page.goto(url.replace(/^app:\/\/beadwright/, STAND_IN_ORIGIN));
    if (!answer?.ok()) throw new Error(`${url} was answered ${answer?.status()}`);
  }

  destroy = () => {
    windows.splice(windows.indexOf(this), 1);
    void this.webContents.page?.context().close();
  };

  /** What Electron asks `web-contents` about, asked here for the page's own tries to leave or open windows. */
  private async guardPage(context: BrowserContext, page: Page): Promise<void> {
    context.on('page', (other) => {
      if (other === page) return;
      const verdict = this.webContents.windowOpenHandler?.({ url: other.url() });
      if (verdict?.action === 'deny') void other.close();
    });
    await page.route('**/*', async (route) => {
      const request = route.request();
      if (!request.isNavigationRequest() || request.frame() !== page.mainFrame()) return route.fallback();
      let isPrevented = false;
      const event = { url: appAddressOf(request.url()), preventDefault: () => (isPrevented = true) };
      this.webContents.emit('will-navigate', event);
      // An answer without content leaves the page where it is, as a prevented navigation does.
      return isPrevented ? route.fulfill({ status: 204 }) : route.fallback();
    });
  }

  show = () => undefined;
  maximize = () => undefined;
  restore = () => undefined;
  focus = () => undefined;
  isMinimized = () => false;
  isMaximized = () => false;
  getNormalBounds = () => ({ x: 0, y: 0, width: this.options.width, height: this.options.height });
}

function appAddressOf(url: string): string {
  return url.startsWith(STAND_IN_ORIGIN) ? `app://beadwright${url.slice(STAND_IN_ORIGIN.length)}` : url;
}

async function serveSchemes(context: BrowserContext): Promise<void> {
  await context.route(`${STAND_IN_ORIGIN}/**`, async (route) => {
    const serve = schemes.get('app');
    if (!serve) return route.abort();
    const response = await serve({ url: appAddressOf(route.request().url()) });
    return route.fulfill({
      status: response.status,
      headers: Object.fromEntries(response.headers),
      body: Buffer.from(await response.arrayBuffer()),
    });
  });
}

async function injectPreload(context: BrowserContext, preload: string): Promise<void> {
  await context.exposeBinding(
    'standInInvoke',
    async ({ frame }: { frame: Frame }, channel: string, ...args: unknown[]) => {
      const handler = handlers.get(channel);
      if (!handler) throw new Error(`No handler registered for '${channel}'`);
      const senderFrame = { url: appAddressOf(frame.url()), parent: frame.parentFrame() };
      return structuredClone(
        await handler({ senderFrame }, ...args.map((argument) => structuredClone(argument))),
      );
    },
  );
  const bundle = readFileSync(preload, 'utf8');
  await context.addInitScript(`(() => {
    const invoke = window.standInInvoke;
    delete window.standInInvoke;
    const heard = new Map();
    window.addEventListener('stand-in-message', ({ detail: [channel, message] }) => {
      for (const listener of heard.get(channel) ?? []) listener({}, message);
    });
    const electron = {
      contextBridge: { exposeInMainWorld: (name, api) => Object.defineProperty(window, name, { value: Object.freeze({ ...api }) }) },
      ipcRenderer: {
        invoke: (channel, ...args) => invoke(channel, ...args.map((argument) => structuredClone(argument))),
        on: (channel, listener) => heard.set(channel, [...(heard.get(channel) ?? []), listener]),
        removeListener: (channel, listener) =>
          heard.set(channel, (heard.get(channel) ?? []).filter((one) => one !== listener)),
      },
    };
    const require = (name) => {
      if (name !== 'electron') throw new Error('a sandboxed preload may not require ' + name);
      return electron;
    };
    const module = { exports: {} };
    (function (require, module, exports) {${bundle}\n})(require, module, module.exports);
  })();`);
}

process.on('SIGTERM', () => app.quit());
