/** For a browser that comes without the printed address. Plain HTML: nothing else of the program is given to it. */
export const STRANGER_PAGE = `<!doctype html>
<html lang="en-GB">
  <head><meta charset="utf-8"><title>Beadwright</title></head>
  <body>
    <h1>Beadwright</h1>
    <p>This browser has not been let in yet.</p>
    <p>Open the whole address that Beadwright printed when it started, with its token. It is needed once in each browser.</p>
  </body>
</html>
`;
