"""A confirmed record with something of everything, and what is hostile in it."""

from extract.record import Record, parse

RECORD = """\
format: 1
narration: {file: lamp.srt, duration: "0:06:00"}
device:
  name: greenhouse lamp
  maker: Tarn & Vale
  model: GL-7
  topology: [flyback]
  ratings: {input_voltage: 220 V to 240 V, input_frequency: 50 Hz}
  weight: 412 g
ports:
  - {name: USB-C port, protocols: [PPS], outputs: [5 V @ 3 A], output_power: 15 W}
boards:
  - {id: b1, name: driver board, at: "0:00:40"}
parts:
  - id: p1
    kind: electrolytic capacitor
    role: input filtering
    count: 2
    at: "0:00:02"
    board: b1
    maker: Orrin
    part_number: "=1+1"
    package: radial 10 mm
    confirmed: true
    values: {capacitance: 330 µF, rated_voltage: 400 V}
    heard: [{at: "0:00:02", text: "two Orrin lytics, 330 mike"}]
    flags:
      - rule: decoded
        level: note
        field: values.capacitance
        message: "read | so"
        settled: "measured it"
  - id: p2
    kind: led
    count: 1
    at: "0:00:04"
    values: {forward_voltage: -3 V}
    flags:
      - rule: usual-range
        level: warning
        field: values.forward_voltage
        message: "-3 V is odd"
        suggestion: 3 V
unplaced:
  - {at: "0:05:00", text: "about 12 millimetres", value: 12 mm}
"""

HOSTILE = "<script>alert(1)</script> \u202etxt.exe `a` | *b* [c](d) & " + "x" * 10_000


def record() -> Record:
    return parse(RECORD)


def hostile() -> Record:
    """The record with a hostile text in every field that holds one."""
    found = record()
    found.narration.file = HOSTILE
    found.device.name = found.device.maker = found.device.model = HOSTILE
    found.device.topology = [HOSTILE]
    found.boards[0].name = found.ports[0].name = HOSTILE
    part = found.parts[0]
    part.maker = part.part_number = part.package = part.colour = HOSTILE
    part.heard[0].text = part.flags[0].message = part.flags[0].settled = HOSTILE
    found.unplaced[0].text = HOSTILE
    return found
