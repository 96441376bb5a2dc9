import { runCommand } from './run-command.ts';

await runCommand(process.argv.slice(2));
