#!/usr/bin/env python3
"""Many simulated sites on one broker, and one real daemon among them.

    thousand_sites.py [SITES] [SECONDS] -- COMMAND OF THE DAEMON...

Starts a mosquitto on a free port of the loopback address and the daemon with a configuration of its
own (the shipped one with a scan of 0.2 s), then SITES clients (1000) for SECONDS (600). Each client
does what a site does: a will, `availability`, 2.5 kB of retained `state` each 10 s, an `event` now
and then, all at QoS 1, and a subscription to its own `command`; a dashboard subscribes to all of it
and sends ten commands a second to sites by chance, the daemon among them. Prints figures; exit
status 1 if a scan of the daemon was late by more than a tick, if a site lost its connection, or
if an answer of the daemon's is missing.

MQTT 3.1.1 is spoken by hand, on one thread: packets as in sections 3.1 to 3.13 of the standard.
"""

import json
import os
import random
import re
import selectors
import signal
import socket
import subprocess
import sys
import tempfile
import time

STATE_EVERY_S = 10
EVENT_EVERY_S = 60
KEEP_ALIVE_S = 60
COMMANDS_PER_S = 10
TICK_S = 0.2
CONNECT, CONNACK, PUBLISH, PUBACK, SUBSCRIBE, SUBACK, PINGREQ, PINGRESP = (
    0x10, 0x20, 0x30, 0x40, 0x82, 0x90, 0xC0, 0xD0)


def text(value):
    data = value.encode()
    return len(data).to_bytes(2, "big") + data


def packet(head, body=b""):
    length, n = b"", len(body)
    while True:
        n, low = divmod(n, 128)
        length += bytes([low | (0x80 if n else 0)])
        if not n:
            return bytes([head]) + length + body


class Client:
    """One connection."""

    def __init__(self, loop, port, name, topic, on_message):
        self.loop, self.name, self.topic, self.on_message = loop, name, topic, on_message
        self.read, self.unsent, self.next_id, self.open = b"", b"", 0, {}
        self.granted = False
        self.socket = socket.create_connection(("127.0.0.1", port))
        self.socket.setblocking(False)
        loop.selector.register(self.socket, selectors.EVENT_READ, self)
        will = text(topic + "availability") + text("offline")
        self.send(packet(CONNECT, text("MQTT") + bytes([4, 0x02 | 0x04 | 0x08 | 0x20])
                         + KEEP_ALIVE_S.to_bytes(2, "big") + text(name) + will))

    def send(self, data):
        self.unsent += data
        self.flush()

    def flush(self):
        try:
            while self.unsent:
                sent = self.socket.send(self.unsent)
                self.unsent = self.unsent[sent:]
        except BlockingIOError:
            pass
        events = selectors.EVENT_READ | (selectors.EVENT_WRITE if self.unsent else 0)
        self.loop.selector.modify(self.socket, events, self)

    def identifier(self):
        self.next_id = self.next_id % 65535 + 1
        return self.next_id

    def publish(self, subtopic, payload, retain=False, topic=None):
        number = self.identifier()
        self.open[number] = time.monotonic()
        self.loop.published += 1
        self.send(packet(PUBLISH | 0x02 | (1 if retain else 0),
                         text((topic or self.topic) + subtopic) + number.to_bytes(2, "big")
                         + payload))

    def subscribe(self, *filters):
        body = self.identifier().to_bytes(2, "big")
        for f in filters:
            body += text(f) + b"\x01"
        self.send(packet(SUBSCRIBE, body))

    def readable(self):
        try:
            data = self.socket.recv(1 << 18)
        except BlockingIOError:
            return
        if not data:
            self.loop.lost.append(self.name)
            self.loop.selector.unregister(self.socket)
            self.socket.close()
            return
        self.read += data
        while True:
            one = self.whole()
            if one is None:
                return
            self.take(*one)

    def whole(self):
        length = shift = 0
        for i in range(1, 5):
            if len(self.read) <= i:
                return None
            length |= (self.read[i] & 0x7F) << shift
            shift += 7
            if self.read[i] < 0x80:
                break
        if len(self.read) < i + 1 + length:
            return None
        head, body = self.read[0], self.read[i + 1:i + 1 + length]
        self.read = self.read[i + 1 + length:]
        return head, body

    def take(self, head, body):
        kind = head & 0xF0
        if kind == PUBLISH:
            end = 2 + int.from_bytes(body[:2], "big")
            payload = end + 2 if head & 0x06 else end
            if head & 0x06:
                self.send(packet(PUBACK, body[end:end + 2]))
            self.on_message(self, body[2:end].decode(), body[payload:])
        elif kind == PUBACK:
            self.loop.acknowledged.append(
                time.monotonic() - self.open.pop(int.from_bytes(body[:2], "big")))
        elif kind == SUBACK:
            self.granted = True
        elif kind == CONNACK and body[1] != 0:
            raise SystemExit(f"{self.name}: the broker refuses, code {body[1]}")


class Loop:
    def __init__(self):
        self.selector = selectors.DefaultSelector()
        self.lost, self.acknowledged, self.published = [], [], 0

    def once(self, until):
        for key, events in self.selector.select(max(0, until - time.monotonic())):
            if events & selectors.EVENT_WRITE:
                key.data.flush()
            if events & selectors.EVENT_READ:
                key.data.readable()


def free_port():
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        return s.getsockname()[1]


def configuration(folder, port):
    shipped = open("config/limnostat.toml", encoding="utf-8").read()
    for key, value in (("period", '"0.2 s"'), ("host", '"127.0.0.1"'), ("port", str(port))):
        shipped, n = re.subn(rf"(?m)^#?{key} = .*$", f"{key} = {value}", shipped, count=1)
        assert n == 1, key
    name = os.path.join(folder, "limnostat.toml")
    open(name, "w", encoding="utf-8").write(shipped)
    return name


def start_broker(folder, port):
    name = os.path.join(folder, "broker.conf")
    open(name, "w", encoding="utf-8").write(
        f"listener {port} 127.0.0.1\nallow_anonymous true\nmax_queued_messages 0\n")
    broker = subprocess.Popen(["/usr/sbin/mosquitto", "-c", name],
                              stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    for _ in range(200):
        try:
            socket.create_connection(("127.0.0.1", port)).close()
            return broker
        except ConnectionRefusedError:
            time.sleep(0.05)
    raise SystemExit("mosquitto does not listen")


def quantile(values, q):
    return sorted(values)[min(len(values) - 1, int(q * len(values)))] if values else float("nan")


def cpu_s(pid):
    fields = open(f"/proc/{pid}/stat", encoding="ascii").read().rsplit(")", 1)[1].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def run(sites, seconds, command):
    with tempfile.TemporaryDirectory() as folder:
        port = free_port()
        broker = start_broker(folder, port)
        log = open(os.path.join(folder, "log"), "w+", encoding="utf-8")
        daemon = subprocess.Popen(command + ["--config", configuration(folder, port)], stderr=log)
        try:
            return load(sites, seconds, port, broker, daemon, log)
        finally:
            for process in (daemon, broker):
                process.kill()
                process.wait()


def load(sites, seconds, port, broker, daemon, log):
    loop, chance = Loop(), random.Random(1)
    seen = {"messages": 0, "bytes": 0, "commands": 0, "answers": 0, "health": None}
    state = json.dumps({"filling": "x" * 2450}).encode()

    def dashboard_message(_, topic, payload):
        seen["messages"] += 1
        seen["bytes"] += len(payload)
        if topic == "limnostat/garden/result":
            seen["answers"] += 1
        elif topic == "limnostat/garden/health":
            seen["health"] = json.loads(payload)

    def site_message(site, _, payload):
        seen["commands"] += 1
        site.publish("result", payload)

    dashboard = Client(loop, port, "dashboard", "load/", dashboard_message)
    dashboard.subscribe("limnostat/+/+", "limnostat/+/alarm/+")
    clients = []
    for n in range(sites):
        client = Client(loop, port, f"limnostat-site{n}", f"limnostat/site{n}/", site_message)
        client.subscribe(client.topic + "command")
        client.publish("availability", b"online", True)
        clients.append(client)
        if n % 20 == 0:
            loop.once(time.monotonic() + 0.01)
    deadline = time.monotonic() + 60
    while not all(c.granted for c in clients) or seen["health"] is None:
        loop.once(time.monotonic() + 0.1)
        if time.monotonic() > deadline:
            raise SystemExit("not all connected within 60 s, or no word of the daemon")
    loop.acknowledged.clear()
    loop.published = seen["messages"] = seen["bytes"] = 0
    began = time.monotonic()
    broker_s, own_s, daemon_s = cpu_s(broker.pid), time.process_time(), cpu_s(daemon.pid)
    # Evenly spread: each site at its own time.
    states = [(began + STATE_EVERY_S * n / sites, c) for n, c in enumerate(clients)]
    events = [(began + EVENT_EVERY_S * n / sites, c) for n, c in enumerate(clients)]
    i = j = asked = 0
    next_command, sent, behind = began, 0, 0.0
    while (now := time.monotonic()) < began + seconds:
        while states[i % sites][0] + STATE_EVERY_S * (i // sites) <= now:
            behind = max(behind, now - states[i % sites][0] - STATE_EVERY_S * (i // sites))
            states[i % sites][1].publish("state", state, True)
            i += 1
        while events[j % sites][0] + EVENT_EVERY_S * (j // sites) <= now:
            document = {"id": f"load-{j}", "event": "mode", "from": "auto", "to": "off"}
            events[j % sites][1].publish("event", json.dumps(document).encode())
            j += 1
        if next_command <= now:
            next_command += 1 / COMMANDS_PER_S
            sent += 1
            # Within what a site takes a second and, in half an hour, what it takes an hour.
            if sent % (2 * COMMANDS_PER_S) == 0:
                asked += 1
                dashboard.publish("command", b'{"type":"acknowledge","alarm":"orp_failure"}',
                                  topic="limnostat/garden/")
            else:
                dashboard.publish("command", b"{}", topic=chance.choice(clients).topic)
            if sent % (KEEP_ALIVE_S * COMMANDS_PER_S // 2) == 0:
                for c in clients:
                    c.send(packet(PINGREQ))
        loop.once(now + 0.005)
    end = time.monotonic() + 10
    while time.monotonic() < end and seen["answers"] < asked:
        loop.once(time.monotonic() + 0.1)
    took = time.monotonic() - began
    own_s, broker_s = time.process_time() - own_s, cpu_s(broker.pid) - broker_s
    daemon_s = cpu_s(daemon.pid) - daemon_s
    rss = re.search(r"VmRSS:\s+(\d+)", open(f"/proc/{daemon.pid}/status").read()).group(1)
    waits = list(loop.acknowledged)
    daemon.send_signal(signal.SIGTERM)
    daemon.wait(30)
    log.seek(0)
    said = log.read()
    stopped = re.search(r"(\d+) scans, (\d+) of them late; the worst began ([\d.]+) s late, the"
                        r" longest took ([\d.]+) s", said)
    if not stopped:
        raise SystemExit("no word of the daemon's end in:\n" + said)
    print(f"{sites} sites, {took:.0f} s: {loop.published} messages published"
          f" ({loop.published / took:.0f} a second), acknowledged after {quantile(waits, .5) * 1e3:.1f}"
          f" ms (median), {quantile(waits, .99) * 1e3:.1f} ms (99 %), {max(waits) * 1e3:.1f} ms (worst)")
    print(f"the dashboard got {seen['messages']} messages, {seen['bytes'] / 1e6:.0f} MB;"
          f" sites got {seen['commands']} commands; the daemon answered {seen['answers']} of {asked}")
    print(f"daemon: {stopped.group(1)} scans of {TICK_S} s, the worst began {stopped.group(3)} s late,"
          f" the longest took {stopped.group(4)} s; {int(rss) / 1024:.0f} MB")
    print(f"CPU: broker {100 * broker_s / took:.0f} %, sites and dashboard {100 * own_s / took:.0f} %,"
          f" daemon {100 * daemon_s / took:.0f} % of one core; the script was {behind:.2f} s behind at"
          f" worst; {len(loop.lost)} connections lost")
    good = not loop.lost and seen["answers"] == asked and float(stopped.group(3)) <= TICK_S
    return 0 if good else 1


def main():
    arguments = sys.argv[1:]
    if "--" not in arguments:
        sys.exit(__doc__)
    split = arguments.index("--")
    sites = int(arguments[0]) if split > 0 else 1000
    seconds = float(arguments[1]) if split > 1 else 600
    return run(sites, seconds, arguments[split + 1:])


if __name__ == "__main__":
    sys.exit(main())
