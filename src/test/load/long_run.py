#!/usr/bin/env python3
"""The daemon for hours, hurried, with all that befalls a real one.

    long_run.py [HOURS] [SPEED] -- JAVA...

HOURS of simulated time (72) at SPEED times the real time (10), so 72 hours take 7.2 hours and 0.8
hours take 5 minutes. JAVA is the command that starts Java with its class path, for example

    java -Xmx48m -XX:+UseSerialGC -cp target/test-classes:target/classes:$(cat target/classpath)

The script runs itself in mount and network name spaces of its own: the ledger is on a small disk in
memory, the broker on a loopback address that loses packets: by chance, or, in a kernel without
netem, because it is narrow and its queue is short. It restarts the broker, kills and stops the daemon, fills the disk up, and has it
read-only when the daemon starts, all by chance from a fixed seed. At the end it prints memory,
threads, descriptors, log lines and bytes written, and it checks, exit status 1 if not so:

  - it fed at all, and the account is never below what the feeder's own book says was given, and no rolling hour passes
    its cap;
  - of no alarm a change is lost or there twice: each begins where the one before ended;
  - the ledger is whole, and was believed at each start;
  - no life has more than 30 threads or 70 descriptors (25 and 61 are what one needs).

Needs root or user name spaces, mosquitto, and iproute2 for the loss.
"""

import json
import os
import random
import re
import shutil
import signal
import socket
import sqlite3
import subprocess
import sys
import tempfile
import time

SEED = 20270301
DISK_MB = 24
CAP_HOUR_G = 12
RATE_G_H = 20
LOSS = "3%"
NARROW = ["rate", "160kbit", "burst", "3000", "latency", "15ms"]
THREADS_MAX = 30
FILES_MAX = 70
PORT = 18830


def configuration(folder, disk):
    """The shipped file, without acid, and so that it feeds soon and within low caps."""
    lines = open("config/limnostat.toml", encoding="utf-8").read().split("\n")
    lines = [line for line in lines if not re.match(r"acid_(hour|day) = ", line)]
    for section in ("[acid]", "#[board.relay.acid]"):
        first = lines.index(section)
        del lines[first]
        while not re.match(r"#?\[", lines[first]):
            del lines[first]
    values = {
        "scan.period": '"0.2 s"', "ledger.file": f'"{disk}/limnostat.db"',
        "mqtt.host": '"127.0.0.1"', "mqtt.port": str(PORT), "mqtt.allow": '["acknowledge"]',
        "pool.free_chlorine": '"1 mg/L"', "target.free_chlorine": '"6 mg/L"',
        "target.hours": "[]", "limits.free_chlorine_high": '"7 mg/L"',
        "limits.water_min": '"0 degC"', "limits.flow_proving": '"5 s"',
        "limits.chlorine_hour": f'"{CAP_HOUR_G} g"', "limits.chlorine_day": '"150 g"',
        "limits.restarts": "100", "limits.restart_window": '"1 min"', "pump.windows": "[]",
        "chlorine.min_off": '"0 s"', "chlorine.rest": '"0 min"', "chlorine.block": '"0.5 g"',
        "probes.fresh_water": '"0 min"', "pool.cyanuric_acid": '"120 mg/L"'}
    for path, value in values.items():
        section, key = path.split(".")
        at = lines.index(f"[{section}]") + 1
        while not re.match(f"#?{key} = ", lines[at]):
            if lines[at].startswith("["):
                raise SystemExit(f"the shipped file has no {path}")
            at += 1
        lines[at] = f"{key} = {value}"
    name = os.path.join(folder, "limnostat.toml")
    open(name, "w", encoding="utf-8").write("\n".join(lines))
    return name


def shell(*command, check=True):
    done = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    if check and done.returncode != 0:
        raise SystemExit(f"{' '.join(command)}: {done.stdout}")
    return done


def listens():
    try:
        socket.create_connection(("127.0.0.1", PORT), 1).close()
        return True
    except OSError:
        return False


class Run:
    def __init__(self, hours, speed, java, folder):
        self.speed, self.java, self.folder = speed, java, folder
        self.seconds = hours * 3600 / speed
        self.disk = os.path.join(folder, "disk")
        self.book = os.path.join(folder, "book")
        self.log_name = os.path.join(folder, "log")
        self.chance = random.Random(SEED)
        self.lives, self.events, self.faults = [], {}, []
        self.written = 0
        os.mkdir(self.disk)
        shell("mount", "-t", "tmpfs", "-o", f"size={DISK_MB}m", "tmpfs", self.disk)
        self.config = configuration(folder, self.disk)
        self.broker = self.daemon = None

    def happened(self, what):
        self.events[what] = self.events.get(what, 0) + 1

    # What there is.

    def start_broker(self):
        self.broker = subprocess.Popen(["/usr/sbin/mosquitto", "-p", str(PORT)],
                                       stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)

    def stop_broker(self):
        self.broker.kill()
        self.broker.wait()

    def start_daemon(self):
        log = open(self.log_name, "a", encoding="utf-8")
        self.daemon = subprocess.Popen(
            self.java + [f"-Dlimnostat.speed={self.speed}", "limnostat.daemon.LongRunProcess",
                         self.config, self.book], stderr=log, stdout=log)
        self.lives.append([])

    def sample(self):
        pid = self.daemon.pid
        try:
            status = open(f"/proc/{pid}/status", encoding="ascii").read()
            threads = int(re.search(r"Threads:\s+(\d+)", status).group(1))
            memory = int(re.search(r"VmRSS:\s+(\d+)", status).group(1)) / 1024
            files = len(os.listdir(f"/proc/{pid}/fd"))
            written = int(re.search(r"wchar: (\d+)", open(f"/proc/{pid}/io").read()).group(1))
            self.lives[-1].append((time.monotonic(), memory, threads, files, written))
        except (OSError, AttributeError):
            if self.daemon.poll() is not None:
                raise SystemExit("the daemon ended by itself:\n" + self.tail()) from None

    def tail(self):
        return "".join(open(self.log_name, encoding="utf-8").readlines()[-15:])

    def wait(self, seconds):
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            if self.daemon.poll() is not None:
                raise SystemExit("the daemon ended by itself:\n" + self.tail())
            self.sample()
            time.sleep(min(1, max(0, end - time.monotonic())))

    # What befalls it.

    def ends(self, how):
        self.sample()
        self.daemon.send_signal(how)
        self.daemon.wait(30)
        # Its last level held until it was gone: what holds an output after that is not the program.
        with open(self.book, "a", encoding="ascii") as book:
            book.write(f"{time.monotonic_ns()} 0\n")
        if self.lives[-1]:
            self.written += self.lives[-1][-1][4]

    def killed(self):
        self.ends(signal.SIGKILL)
        self.start_daemon()

    def stopped(self):
        self.ends(signal.SIGTERM)
        self.start_daemon()

    def killed_and_read_only_at_the_start(self):
        self.ends(signal.SIGKILL)
        shell("mount", "-o", "remount,ro", self.disk)
        self.start_daemon()
        self.wait(8)
        shell("mount", "-o", "remount,rw", self.disk)
        self.wait(8)

    def disk_full(self):
        filler = os.path.join(self.disk, "filler")
        with open(filler, "wb", buffering=0) as out:
            try:
                while True:
                    out.write(bytes(4096))
            except OSError:
                pass
        self.wait(8)
        os.remove(filler)

    def killed_and_disk_full_at_the_start(self):
        self.ends(signal.SIGKILL)
        filler = os.path.join(self.disk, "filler")
        shell("sh", "-c", f"cat /dev/zero > '{filler}'", check=False)
        self.start_daemon()
        self.wait(8)
        os.remove(filler)
        self.wait(8)

    def broker_restarted(self):
        self.stop_broker()
        self.wait(self.chance.uniform(0, 8))
        self.start_broker()

    def nothing(self):
        pass

    def go(self):
        shell("ip", "link", "set", "lo", "mtu", "1500")
        by_chance = ["netem", "loss", LOSS]
        if shell("tc", "qdisc", "add", "dev", "lo", "root", *by_chance, check=False).returncode:
            # A kernel without netem: a narrow link whose short queue drops what it cannot hold.
            shell("tc", "qdisc", "add", "dev", "lo", "root", "tbf", *NARROW)
        self.start_broker()
        self.start_daemon()
        began = time.monotonic()
        kinds = [self.killed, self.killed, self.stopped, self.broker_restarted,
                 self.broker_restarted, self.disk_full, self.killed_and_read_only_at_the_start,
                 self.killed_and_disk_full_at_the_start, self.nothing, self.nothing]
        deck = []
        while time.monotonic() < began + self.seconds:
            self.wait(self.chance.uniform(2, 20))
            if not deck:
                deck = list(kinds)
                self.chance.shuffle(deck)
            befalls = deck.pop()
            befalls()
            self.happened(befalls.__name__.replace("_", " "))
        self.wait(20)
        self.ends(signal.SIGTERM)
        self.took = time.monotonic() - began
        self.loss = shell("tc", "-s", "qdisc", "show", "dev", "lo").stdout
        self.stop_broker()

    # What came of it.

    def given(self):
        """Runs of the feeder by its book: from, to (simulated s), level."""
        runs, last = [], None
        for line in open(self.book, encoding="ascii"):
            at, level = line.split()
            at = int(at) / 1e9 * self.speed
            if last and last[1] > 0:
                runs.append((last[0], at, last[1]))
            last = (at, float(level))
        return runs

    def check(self):
        wrong = []
        runs = self.given()
        grams = lambda a, b: sum(level * max(0, min(b, to) - max(a, since))
                                 for since, to, level in runs) * RATE_G_H / 3600
        total = grams(float("-inf"), float("inf"))
        hour = max((grams(to - 3600, to) for _, to, _ in runs), default=0)
        database = sqlite3.connect(os.path.join(self.disk, "limnostat.db"))
        whole = database.execute("PRAGMA integrity_check").fetchone()[0]
        state = json.loads(database.execute("SELECT json FROM state").fetchone()[0])
        booked = database.execute("SELECT cumulative_amount FROM booking WHERE output = 'chlorine'")
        # As the next process would: after any end that was not orderly all that is booked.
        counted = state["chlorine"]["account"]["given"]
        if state["phase"] != "STOPPED":
            counted = max([counted] + [row[0] for row in booked])
        alarms = [json.loads(row[0]) for row in
                  database.execute("SELECT json FROM event WHERE kind = 'alarm' ORDER BY id")]
        stands = {}
        for change in alarms:
            before = stands.get(change["alarm"], "normal")
            if change["from"] != before:
                wrong.append(f"alarm {change['alarm']} was {before}, then from {change['from']}")
            stands[change["alarm"]] = change["to"]
        log = open(self.log_name, encoding="utf-8").read()
        doubts = re.findall(r"the ledger is not believed.*", log)
        if whole != "ok":
            wrong.append("the ledger: " + whole)
        if total == 0:
            wrong.append("nothing was fed, so nothing was tried: the machine is too busy")
        if counted < total:
            wrong.append(f"the account says {counted} g, {total} g were given")
        if hour > CAP_HOUR_G:
            wrong.append(f"{hour} g in an hour")
        wrong += doubts
        for number, life in enumerate(self.lives):
            for name, column, most in (("threads", 2, THREADS_MAX), ("descriptors", 3, FILES_MAX)):
                worst = max((s[column] for s in life), default=0)
                if worst > most:
                    wrong.append(f"life {number}: {worst} {name}")
        simulated_days = self.took * self.speed / 86_400
        samples = [s for life in self.lives for s in life]
        lines = log.count("\n")
        print(f"{self.took:.0f} s at {self.speed:g} times speed, {24 * simulated_days:.2f} simulated"
              f" hours, {len(self.lives)} lives")
        sent, dropped = re.search(r"bytes (\d+) pkt \(dropped (\d+)", self.loss).groups()
        print(f"packets on the loopback: {sent} sent, {dropped} dropped")
        print("befell it: " + ", ".join(f"{n} {what}" for what, n in sorted(self.events.items())))
        for name, column, unit in (("memory", 1, " MB"), ("threads", 2, ""), ("descriptors", 3, "")):
            values = sorted(s[column] for s in samples)
            print(f"{name}: median {values[len(values) // 2]:.0f}{unit}, most {values[-1]:.0f}{unit}")
        print(f"log: {lines} lines, {lines / simulated_days:.0f} a simulated day")
        print(f"written by the process (files, log and network): {self.written / 1e6:.1f} MB,"
              f" {self.written / 1e6 / simulated_days:.0f} MB a simulated day;"
              f" ledger {os.path.getsize(os.path.join(self.disk, 'limnostat.db')) / 1e3:.0f} kB")
        print(f"given {total:.2f} g, counted {counted:.2f} g, most in an hour {hour:.2f} g of"
              f" {CAP_HOUR_G}; {len(alarms)} changes of alarms")
        for line in wrong:
            print("WRONG: " + line)
        return 1 if wrong else 0


def isolated():
    """Runs this script again in name spaces of its own."""
    spaces = ["unshare", "--mount", "--net"] + ([] if os.getuid() == 0 else ["--map-root-user"])
    os.environ["LONG_RUN_ISOLATED"] = "1"
    os.execvp(spaces[0], spaces + [sys.executable] + sys.argv)


def main():
    arguments = sys.argv[1:]
    if "--" not in arguments:
        sys.exit(__doc__)
    if "LONG_RUN_ISOLATED" not in os.environ:
        isolated()
    split = arguments.index("--")
    hours = float(arguments[0]) if split > 0 else 72
    speed = float(arguments[1]) if split > 1 else 10
    shell("ip", "link", "set", "lo", "up")
    folder = tempfile.mkdtemp(prefix="long-run")
    run = Run(hours, speed, arguments[split + 1:], folder)
    try:
        run.go()
        return run.check()
    finally:
        for process in (run.daemon, run.broker):
            if process and process.poll() is None:
                process.kill()
                process.wait()
        shell("umount", "-l", run.disk, check=False)
        shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    sys.exit(main())
