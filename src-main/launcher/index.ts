import { spawn, spawnSync } from 'node:child_process';
import path from 'node:path';
import { programFolder } from '../bootstrap/program-files.ts';
import { electronBinary, hasDisplay } from './electron-binary.ts';
import { isBuildStale } from './stale-build.ts';

// `npm start`: builds what is stale, then the desktop window, or the station where there can be none.
const folder = programFolder(import.meta.dirname);

if (isBuildStale(folder)) {
  const built = spawnSync(
    process.execPath,
    [path.join(folder, 'node_modules', 'electron-vite', 'bin', 'electron-vite.js'), 'build'],
    {
      cwd: folder,
      stdio: ['ignore', 'ignore', 'inherit'],
    },
  );
  if (built.status !== 0) {
    console.error('Beadwright could not be built; the lines above say why.');
    process.exit(1);
  }
}

const binary = hasDisplay(process.env) ? electronBinary(folder) : null;
if (binary) {
  const desktop = spawn(binary, [folder], { stdio: 'inherit' });
  desktop.on('exit', (code) => process.exit(code ?? 0));
} else {
  const reason = hasDisplay(process.env)
    ? "Electron's binary is not here and could not be fetched"
    : 'there is no display';
  console.log(`No desktop window (${reason}); the same program is served to a browser instead.`);
  const station = spawn(
    process.execPath,
    [path.join(folder, 'out', 'main', 'station.js'), ...process.argv.slice(2)],
    {
      stdio: ['inherit', 'pipe', 'inherit'],
    },
  );
  station.stdout.on('data', (chunk: Buffer) => {
    const text = chunk.toString();
    process.stdout.write(text);
    const address = /http:\/\/\S+/.exec(text)?.[0];
    if (address && hasDisplay(process.env)) openInBrowser(address);
  });
  station.on('exit', (code) => process.exit(code ?? 0));
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => station.kill(signal));
}

function openInBrowser(address: string): void {
  const [command, ...args] =
    process.platform === 'darwin'
      ? ['open']
      : process.platform === 'win32'
        ? ['cmd', '/c', 'start', '']
        : ['xdg-open'];
  if (command)
    spawn(command, [...args, address], { stdio: 'ignore', detached: true }).on('error', () => undefined);
}
