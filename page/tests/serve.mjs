// "bowlwright serve" for the tests: started with an empty store in a folder of its own, stopped and started again at will.
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const STARTED_WITHIN_MS = 15000;

/** The address that the program prints once it listens. */
function started(child) {
  return new Promise((done, fail) => {
    let said = '';
    const timer = setTimeout(() => fail(new Error(`the server did not start: ${said}`)), STARTED_WITHIN_MS);
    const hear = (bytes) => {
      said += bytes;
      const address = /http:\/\/[\w.[\]:]+:\d+\//.exec(said)?.[0];
      if (!address) return;
      clearTimeout(timer);
      done(address);
    };
    child.stdout.on('data', hear);
    child.stderr.on('data', hear);
    child.on('error', fail);
    child.on('exit', (code) => fail(new Error(`the server ended with ${code}: ${said}`)));
  });
}

/** 'more': further options. The answer has the address, the store's path, stop(), start() on the same port, and close(). */
export async function serve(program, more = []) {
  const folder = mkdtempSync(join(tmpdir(), 'bowlwright-serve-'));
  const told = { address: '', store: join(folder, 'texts.db'), bytes: 0 };
  let child = null;
  told.start = async () => {
    const port = told.address ? new URL(told.address).port : '0';
    child = spawn(program, ['serve', '--port', port, '--store', told.store, ...more], { stdio: ['ignore', 'pipe', 'pipe'] });
    told.address = await started(child);
  };
  told.stop = async (signal = 'SIGTERM') => {
    if (!child || child.exitCode !== null) return;
    const gone = new Promise((done) => child.once('exit', done));
    child.kill(signal);
    await gone;
    child = null;
  };
  told.close = async () => {
    await told.stop('SIGKILL');
    rmSync(folder, { recursive: true, force: true });
  };
  await told.start();
  return told;
}
