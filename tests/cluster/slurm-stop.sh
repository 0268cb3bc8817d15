#!/bin/bash
# Stops what slurm-start.sh FOLDER started, by the numbers that it wrote down.
place=$(realpath -m "$1")
for name in slurmd slurmctld munged; do
  number=$(cat "$place/$name.pid" 2> /dev/null) || continue
  kill "$number" 2> /dev/null
  for _ in $(seq 40); do
    kill -0 "$number" 2> /dev/null || break
    sleep 0.25
  done
  rm -f "$place/$name.pid"
done
