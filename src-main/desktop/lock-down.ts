import type { App, Session, WebContents } from 'electron';
import { isOurAddress } from './our-frame.ts';

/** No window opens another, leaves our address, embeds a page or is granted a permission. */
export function lockDown(
  app: Pick<App, 'on'>,
  session: Pick<Session, 'setPermissionRequestHandler' | 'setPermissionCheckHandler'>,
): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  app.on('web-contents-created', (_event, contents) => lockDownContents(contents));
}

function lockDownContents(contents: WebContents): void {
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  contents.on('will-navigate', (event) => {
    if (!isOurAddress(event.url)) event.preventDefault();
  });
  contents.on('will-redirect', (event) => event.preventDefault());
  contents.on('will-attach-webview', (event) => event.preventDefault());
}
