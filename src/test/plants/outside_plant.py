"""A plant that is not ours, for the bench: python3 outside_plant.py N STEP_S -- COMMAND...

Starts COMMAND, gives it N scans of a first-order pool (50 m3, 20 g/h cell, sun and dark loss, ORP by
the law of the logarithm, pH fixed) STEP_S apart, and prints one line of what came of it.
"""
import math
import subprocess
import sys
import time


def main():
    scans, step_s, command = int(sys.argv[1]), float(sys.argv[2]), sys.argv[4:]
    child = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, bufsize=-1)
    write, flush, read = child.stdin.write, child.stdin.flush, child.stdout.readline
    log10, sin, key = math.log10, math.sin, b'"chlorine":'
    rise = 20 / 3600 * step_s / 50  # mg/L a step at full output
    dark, sun = 0.4 / 86400 * step_s, 0.8 / 86400 * step_s  # share a step, at night and at noon
    t, free, low, high, total, grams = 1782864000.0, 1.0, 1e9, 0.0, 0.0, 0.0
    started = time.perf_counter()
    for scan in range(scans):
        orp_mv = 780 + 55 * log10(0.015 * free + 1e-4)
        noise = sin(scan * 12.9898)  # a signal that stands still is a frozen one
        write(b'{"t":%.3f,"in":{"orp_mv":%.2f,"ph_mv":%.2f,"water_c":%.3f,"flow":true,"pump_on":true}}\n'
              % (t, orp_mv + 0.5 * noise, -29.58 + 0.2 * noise, 25 + 0.02 * noise))
        flush()
        line = read()
        at = line.find(key)
        if at < 0:
            sys.exit("scan %d: no chlorine output in the answer %r" % (scan, line[:200]))
        at += len(key)
        end = at + 1
        while line[end] not in b",}":
            end += 1
        chlorine = float(line[at:end])
        noon = sin((t % 86400 - 19800) / 43200 * math.pi)  # up from 5.30 to 17.30 UTC
        free += rise * chlorine - free * (dark + sun * noon if noon > 0 else dark)
        grams += chlorine * 20 / 3600 * step_s
        t += step_s
        total += free
        low, high = min(low, free), max(high, free)
    seconds = time.perf_counter() - started
    child.stdin.close()
    status = child.wait()
    print("scans %d seconds %.3f lines_per_s %.0f free_chlorine_mg_l min %.3f mean %.3f max %.3f grams %.1f status %d"
          % (scans, seconds, scans / seconds, low, total / scans, high, grams, status))
    sys.exit(0 if status == 0 else 1)


main()
