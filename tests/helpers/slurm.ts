/**
 * One machine that is a whole Slurm cluster, as long as a test needs it: authentication, controller and node with a folder, a
 * key and ports of their own, so that two clones may test at once and a cluster that the machine belongs to is not touched.
 * Needs no root, no systemd and no control groups. The daemons are children that end with the process that started them.
 */

import { type ChildProcess, execFileSync, spawn, spawnSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { mkdirSync, openSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { availableParallelism, hostname, userInfo } from 'node:os';
import { join } from 'node:path';
import { until } from './until.ts';

/** Debian keeps daemons where a user's path does not lead. */
const PATH = `${process.env.PATH}:/usr/sbin`;
const NEEDED = ['munged', 'slurmctld', 'slurmd', 'sbatch', 'scontrol', 'squeue', 'setpriv'];

/** Why the tests with Slurm cannot run; null when they can. */
export const NO_SLURM = NEEDED.every(
  (name) => spawnSync('sh', ['-c', `command -v ${name}`], { env: { PATH } }).status === 0,
)
  ? null
  : 'the tests with Slurm need Debian’s slurmctld, slurmd, slurm-client and munge';

/** Beyond it a daemon that does not start or end is broken, not slow. */
const PATIENCE_MS = 60_000;

export interface Slurm {
  /** for the commands that talk to it */
  env: NodeJS.ProcessEnv;
  /** what one of its own commands prints */
  ask(command: string, ...args: string[]): string;
  /** ends all jobs and daemons */
  stop(): Promise<void>;
}

/** Tries twice, should another process take a port meanwhile. @throws with the ends of the logs where the node is not idle by then */
export async function startSlurm(folder: string): Promise<Slurm> {
  return tryToStart(join(folder, 'first')).catch(() => tryToStart(join(folder, 'second')));
}

async function tryToStart(folder: string): Promise<Slurm> {
  for (const name of ['state', 'spool', 'log', 'munge'])
    mkdirSync(join(folder, name), { recursive: true });
  const munge = (name: string): string => join(folder, 'munge', name);
  const conf = join(folder, 'slurm.conf');
  writeFileSync(munge('key'), randomBytes(128), { mode: 0o400 });
  writeFileSync(conf, await configuration(folder));
  const env = { ...process.env, PATH, SLURM_CONF: conf };

  const daemons: [string, ChildProcess][] = [];
  const start = (name: string, ...args: string[]): void => {
    const log = openSync(join(folder, 'log', name), 'a');
    // killed with this process, whatever ends it
    const words = ['--pdeathsig', 'KILL', name, ...args];
    daemons.unshift([name, spawn('setpriv', words, { env, stdio: ['ignore', log, log] })]);
  };
  const answer = (command: string, ...args: string[]): string | null => {
    const { status, stdout } = spawnSync(command, args, { env, encoding: 'utf8' });
    return status === 0 ? stdout.trim() : null;
  };
  const stop = async (): Promise<void> => {
    answer('scancel', '--user', userInfo().username);
    await until(() => answer('squeue', '--noheader') === '', 10_000).catch(() => {});
    for (const [, daemon] of daemons) await end(daemon);
  };

  try {
    start(
      'munged',
      '--foreground',
      '--force', // the socket lies where only this user can go
      `--socket=${munge('socket')}`,
      `--key-file=${munge('key')}`,
      `--pid-file=${munge('pid')}`,
      `--seed-file=${munge('seed')}`,
    );
    await until(() => answer('munge', '-n', '-S', munge('socket')) !== null, PATIENCE_MS);
    start('slurmctld', '-D', '-i');
    start('slurmd', '-D');
    await until(() => answer('sinfo', '--noheader', '--format=%T') === 'idle', PATIENCE_MS);
  } catch {
    await stop();
    const said = daemons.map(([name]) => {
      const lines = readFileSync(join(folder, 'log', name), 'utf8')
        .trim()
        .split('\n');
      return `${name}: ${lines.slice(-5).join('\n')}`;
    });
    throw new Error(`Slurm does not start\n${said.join('\n')}`);
  }
  return {
    env,
    ask: (command, ...args) => execFileSync(command, args, { env, encoding: 'utf8' }),
    stop,
  };
}

async function configuration(folder: string): Promise<string> {
  const [host] = hostname().split('.');
  const [controllerPort, nodePort] = await unusedPorts(2);
  const user = userInfo().username;
  return `ClusterName=lakes
SlurmctldHost=${host}(127.0.0.1)
SlurmctldPort=${controllerPort}
SlurmdPort=${nodePort}
SlurmUser=${user}
SlurmdUser=${user}
AuthType=auth/munge
AuthInfo=socket=${join(folder, 'munge/socket')}
StateSaveLocation=${join(folder, 'state')}
SlurmdSpoolDir=${join(folder, 'spool')}
SlurmctldPidFile=${join(folder, 'slurmctld.pid')}
SlurmdPidFile=${join(folder, 'slurmd.pid')}
ProctrackType=proctrack/pgid
TaskPlugin=task/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
SlurmdParameters=config_overrides
PropagateResourceLimits=NONE
AccountingStorageType=accounting_storage/none
JobAcctGatherType=jobacct_gather/none
MpiDefault=none
ReturnToService=2
MinJobAge=3600
NodeName=${host} NodeAddr=127.0.0.1 CPUs=${availableParallelism()} State=UNKNOWN
PartitionName=all Nodes=${host} Default=YES MaxTime=120 State=UP
`;
}

/** All open at once, so that they differ. */
async function unusedPorts(count: number): Promise<number[]> {
  const servers = Array.from({ length: count }, () => createServer());
  const ports = servers.map(
    (server) =>
      new Promise<number>((done) =>
        server.listen(0, '127.0.0.1', () => done((server.address() as { port: number }).port)),
      ),
  );
  const found = await Promise.all(ports);
  await Promise.all(servers.map((server) => new Promise((done) => server.close(done))));
  return found;
}

async function end(daemon: ChildProcess): Promise<void> {
  if (daemon.exitCode !== null || daemon.signalCode !== null) return;
  const gone = new Promise((done) => daemon.once('exit', done));
  daemon.kill('SIGTERM');
  const last = setTimeout(() => daemon.kill('SIGKILL'), 10_000);
  await gone;
  clearTimeout(last);
}
