import type { StartFault } from '../bootstrap/start-fault.ts';

/** A page without any of the program: plain HTML, so that it comes whatever is the matter. */
export function plainPage(body: string): string {
  return `<!doctype html>
<html lang="en-GB">
  <head>
    <meta charset="utf-8">
    <meta name="viewport" content="width=device-width, initial-scale=1">
    <meta name="color-scheme" content="light dark">
    <title>Beadwright</title>
    <link rel="stylesheet" href="/plain-page.css">
  </head>
  <body>
    <h1>Beadwright</h1>
${body}
  </body>
</html>
`;
}

/** For a browser that nobody has let in: nothing else of the program is given to it. */
export const STRANGER_PAGE = plainPage(`    <p>This browser has not been let in yet.</p>
    <p>On the machine where Beadwright runs: open the whole address that Beadwright printed when it started, with its token. It is needed once in each browser.</p>
    <p>On a tablet, a phone or another computer: <a href="/join">join with a code</a>. The lead has it made in the shop, under Devices.</p>`);

/** For a device that has joined, while nobody can look it up. */
export const NOT_NOW_PAGE =
  plainPage(`    <p>The casebook is not open. Look at the station itself: it says why, and what leads back.</p>
    <p><a href="/">Try again</a></p>`);

/** Where a device joins. */
export const JOIN = '/join';

/** The page on which a device joins. Opening it uses nothing up: a code counts when the button is pressed. */
export function joinPage(code: string, fault = ''): string {
  return plainPage(`${fault ? `    <p role="alert"><strong>${escaped(fault)}</strong></p>\n` : ''}    <form method="post" action="${JOIN}">
      <p><label for="code">Code for this device</label></p>
      <p><input id="code" name="code" type="text" required maxlength="40" autocomplete="off" autocapitalize="characters" spellcheck="false" value="${escaped(code)}"></p>
      <p><button type="submit">Join</button></p>
    </form>
    <p>The lead has a code made at the station, in the shop under Devices. It works once, within ten minutes.</p>`);
}

/** What the start failed of, with the way on. The button posts to `TRY_AGAIN`; `isThere`: the program runs, whatever failed. */
export function startFaultPage({ title, reason, wayOn }: StartFault, isThere: boolean): string {
  return plainPage(`    <p><strong>${escaped(title)}</strong></p>
    <pre>${escaped(reason)}</pre>
    <p>${escaped(wayOn)}</p>
    <form method="post" action="${TRY_AGAIN}"><button type="submit" autofocus>${isThere ? 'Go on here' : 'Try again'}</button></form>`);
}

/** Where a page of a failed start goes on from. */
export const TRY_AGAIN = '/try-again';

/** Nothing but the page itself, its one look and its one button. */
export const PLAIN_PAGE_POLICY =
  "default-src 'none'; style-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

/** For fingers, from arm's length, light or dark as the device is set. */
export const PLAIN_PAGE_STYLE = `body {
  max-width: 40rem;
  margin: 2rem auto;
  padding: 0 1.25rem;
  font: 1.125rem/1.5 system-ui, sans-serif;
}
pre { white-space: pre-wrap; }
label { font-weight: 600; }
input, button {
  box-sizing: border-box;
  min-height: 3rem;
  padding: 0.5rem 1rem;
  font: inherit;
}
input { width: 100%; font-size: 1.75rem; letter-spacing: 0.08em; }
button { font-weight: 600; cursor: pointer; }
a.button {
  display: inline-block;
  padding: 0.75rem 1rem;
  border: 2px solid;
  border-radius: 0.5rem;
  font-weight: 600;
}
li { margin-block: 0.5rem; }
.signs { font: 1.25rem/1.6 ui-monospace, monospace; overflow-wrap: anywhere; }
`;

export function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
}
