#!/bin/bash
# One machine that is a whole cluster, for the tests alone: controller, node and authentication on the loopback.
# Usage: slurm-start.sh FOLDER; then SLURM_CONF=FOLDER/slurm.conf. Needs root and Debian's slurmctld, slurmd, slurm-client, munge.
set -euo pipefail
place=$(realpath -m "$1")
mkdir -p "$place/state" "$place/spool" "$place/log"
host=$(hostname -s)
cat > "$place/slurm.conf" <<END
ClusterName=lakes
SlurmctldHost=$host(127.0.0.1)
SlurmctldPort=17817
SlurmdPort=17818
SlurmUser=root
SlurmdUser=root
AuthType=auth/munge
StateSaveLocation=$place/state
SlurmdSpoolDir=$place/spool
SlurmctldPidFile=$place/slurmctld.pid
SlurmdPidFile=$place/slurmd.pid
SlurmctldLogFile=$place/log/slurmctld.log
SlurmdLogFile=$place/log/slurmd.log
ProctrackType=proctrack/pgid
TaskPlugin=task/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
AccountingStorageType=accounting_storage/none
JobAcctGatherType=jobacct_gather/none
MpiDefault=none
ReturnToService=2
MinJobAge=3600
NodeName=$host NodeAddr=127.0.0.1 CPUs=$(nproc) State=UNKNOWN
PartitionName=all Nodes=$host Default=YES MaxTime=120 State=UP
END
if ! munge -n > /dev/null 2>&1; then
  if [ ! -s /etc/munge/munge.key ]; then
    head -c 1024 /dev/urandom > /etc/munge/munge.key
    chown munge:munge /etc/munge/munge.key
    chmod 400 /etc/munge/munge.key
  fi
  install -d -o munge -g munge -m 755 /run/munge
  install -d -o munge -g munge -m 700 /var/lib/munge /var/log/munge
  runuser -u munge -- munged
  cp /run/munge/munged.pid "$place/munged.pid"
fi
export SLURM_CONF="$place/slurm.conf"
slurmctld -i
slurmd
for _ in $(seq 60); do
  if [ "$(sinfo --noheader --format=%T 2> /dev/null)" = idle ]; then exit 0; fi
  sleep 0.25
done
tail -n 20 "$place"/log/*.log >&2
exit 1
