import path from 'node:path';
import { createDispatcher } from '../operations/dispatcher.ts';
import { handlers } from '../operations/handlers.ts';
import { programFolder } from '../hosting/program-files.ts';
import { startProgram } from '../hosting/start-program.ts';
import { startStation } from './station.ts';

// `node src-main/station/index.ts [--port N]`: the station on its own.
const folder = programFolder(import.meta.dirname);
const flag = process.argv.indexOf('--port');
const port = flag > 0 ? Number(process.argv[flag + 1]) : Number(process.env['BEADWRIGHT_PORT'] ?? 0);
if (!(Number.isInteger(port) && port >= 0 && port < 65_536)) {
  console.error('--port takes a whole number from 0 to 65535');
  process.exit(2);
}
const program = await startProgram('station', folder, process.env);
const dispatcher = createDispatcher(program, handlers, 'station', {
  log: (message, error) => console.error(message, error),
});
const station = await startStation({
  port,
  rendererFolder: path.join(folder, 'out', 'renderer'),
  dispatcher,
});
if (!program.casebook.isOpen) console.error(program.casebook.problem);
console.log(`Beadwright is at ${station.address} (casebook ${program.casebook.file})`);

const stop = async () => {
  await station.close();
  await program.reasoner.close();
  await program.casebook.close();
  process.exit(0);
};
process.on('SIGINT', () => void stop());
process.on('SIGTERM', () => void stop());
