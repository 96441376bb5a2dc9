import type { StartFault } from '../bootstrap/start-fault.ts';

/** A page without any of the program: plain HTML, so that it comes whatever is the matter. */
function plainPage(body: string): string {
  return `<!doctype html>
<html lang="en-GB">
  <head>
    <meta charset="utf-8">
    <meta name="viewport" content="width=device-width, initial-scale=1">
    <meta name="color-scheme" content="light dark">
    <title>Beadwright</title>
  </head>
  <body>
    <h1>Beadwright</h1>
${body}
  </body>
</html>
`;
}

/** For a browser that comes without the printed address: nothing else of the program is given to it. */
export const STRANGER_PAGE = plainPage(`    <p>This browser has not been let in yet.</p>
    <p>Open the whole address that Beadwright printed when it started, with its token. It is needed once in each browser.</p>`);

/** What the start failed of, with the way on. The button posts to `TRY_AGAIN`. */
export function startFaultPage({ title, reason, wayOn }: StartFault, button: string): string {
  return plainPage(`    <p><strong>${escaped(title)}</strong></p>
    <pre>${escaped(reason)}</pre>
    <p>${escaped(wayOn)}</p>
    <form method="post" action="${TRY_AGAIN}"><button type="submit" autofocus>${escaped(button)}</button></form>`);
}

/** Where a page of a failed start goes on from. */
export const TRY_AGAIN = '/try-again';

/** Nothing but the page itself and its one button. */
export const PLAIN_PAGE_POLICY =
  "default-src 'none'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
}
