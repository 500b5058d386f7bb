"""The worksheets on a command line.

python -m calc                                lists the worksheets
python -m calc WORKSHEET                      lists its fields
python -m calc WORKSHEET field=value ...      prints the reply text; what isn't given is unknown
python -m calc WORKSHEET --example ...        the same, starting from the page's example
python -m calc WORKSHEET --ask KEY ...        leads with another of the worksheet's questions
python -m calc WORKSHEET --json field=value   prints everything as JSON
python -m calc capability TRACTORS            prints the sheet of every tractor of a list
python -m calc read MESSAGE                   reads a message: its questions, and what it gives them
python -m calc matrix TRACTORS IMPLEMENTS [field=value ...] [--workers N] [--out FILE]
                                              prints every pairing of two lists as CSV, or writes
                                              it to a file, going on where it was stopped

The exit code tells what is found: 0 within the limits, close to one, or compared; 1 over a limit;
3 can't tell yet; 2 bad input, and nothing or not everything was computed.
"""

from __future__ import annotations

import argparse
import io
import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path

from calc import model, quantities, search, worksheets
from calc.errors import InputError, YardstickError
from calc.model import sentences
from calc.render import data, reply

BAD_INPUT = 2
EXIT_CODES = {
    model.WITHIN: 0,
    model.CLOSE: 0,
    model.COMPARED: 0,
    model.OVER: 1,
    model.UNKNOWN: 3,
}
# What a shell reports for a program whose reader has gone, and for Ctrl+C.
NO_READER, STOPPED = 141, 130


def run(arguments: Sequence[str] | None = None) -> int:
    """Run one command as `main` does; a reader who has enough, and Ctrl+C, are no faults."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")
    try:
        code = main(arguments)
        sys.stdout.flush()
    except BrokenPipeError:
        # Python would try once more at the end, and complain.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return NO_READER
    except KeyboardInterrupt:
        return STOPPED
    return code


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; return a code of EXIT_CODES for what is found, or BAD_INPUT."""
    parser = argparse.ArgumentParser(
        prog="python -m calc", description="Answers about tractors, implements, tires and the road."
    )
    parser.add_argument("worksheet", nargs="?", help="a worksheet, “read” or “matrix”")
    parser.add_argument("inputs", nargs="*", metavar="field=value", help="what is known")
    parser.add_argument(
        "--example", action="store_true", help="start from the page's example, not from nothing"
    )
    parser.add_argument("--ask", default="", help="which of the worksheet's questions leads")
    parser.add_argument("--json", action="store_true", help="print everything as JSON")
    parser.add_argument(
        "--units", choices=quantities.SYSTEMS, default="us", help="the units that are shown"
    )
    parser.add_argument(
        "--workers", type=int, default=1, metavar="N", help="processes that share out a matrix"
    )
    parser.add_argument(
        "--out",
        type=Path,
        metavar="FILE",
        help="a matrix is written there",
    )
    asked = parser.parse_intermixed_args(arguments)
    try:
        if asked.worksheet is None:
            return _list()
        if asked.worksheet == "read":
            return _read(" ".join(asked.inputs), asked.units, as_json=asked.json)
        if asked.worksheet == "matrix":
            return _matrix(asked.inputs, asked.workers, asked.out)
        if asked.worksheet == "capability" and any("=" not in word for word in asked.inputs):
            return _capability(asked.inputs, asked.units)
        sheet = worksheets.load(asked.worksheet)
        if not (asked.inputs or asked.json or asked.example or asked.ask):
            return _fields(sheet, asked.units)
        found = search.answer(
            sheet, _typed(asked.inputs), asked.units, example=asked.example, ask=asked.ask
        )
    except search.BadInputs as bad:
        for name, sentence in bad.errors.items():
            print(f"{name}: {sentence}" if name else sentence, file=sys.stderr)
        return BAD_INPUT
    except YardstickError as error:
        print(error, file=sys.stderr)
        return BAD_INPUT
    if asked.json:
        print(json.dumps(data.data(found, asked.units), indent=2, ensure_ascii=False))
    else:
        print(reply.reply(found, asked.units))
        if found.odds:
            print(f"Of machines that fit what you gave: {sentences.odds_sentence(found)}")
    return EXIT_CODES[found.finding]


def _typed(inputs: Sequence[str]) -> dict[str, str]:
    typed: dict[str, str] = {}
    for item in inputs:
        name, equals, value = item.partition("=")
        if not equals:
            raise search.BadInputs(
                {"": f"“{quantities.shorten(item)}” is not of the form field=value."}
            )
        typed[name.strip()] = value
    return typed


def _list() -> int:
    for name in worksheets.names():
        print(f"{name:16} {worksheets.load(name).question}")
    return 0


def _fields(sheet: model.Worksheet, system: str) -> int:
    print(f"{sheet.title}: {sheet.question}\n")
    for ask in sheet.asks:
        print(f"--ask {ask.key}: {ask.question}")
    known = search.read(sheet, {}).values
    for item in sheet.fields:
        print(f"{item.name}: {item.label}. {item.help}")
        if isinstance(item, model.Choice):
            listed = ", ".join(f"{option.value} ({option.label})" for option in item.options)
            print(f"    one of: {listed}")
            stands_in = quantities.joined([item.shown(value) for value in item.open_to({})], "or")
            print(
                f"    not given: {stands_in or 'must be said'}; example: {item.example or 'none'}"
            )
        elif isinstance(item, model.Field):
            print(f"    {item.kind}: {quantities.kind(item.kind).accepted or 'a plain number'}")
            print(f"    example: {item.example or 'none'}; limits: {item.limits_text(system)}")
            typical = item.typical_for(known)
            if typical:
                print(f"    typical: {sentences.hint(item, known, system)} ({typical.source})")
            else:
                print("    left out when blank")
        else:
            print(f"    example: {item.example or 'none'}; such as {item.such_as}")
    return 0


def _capability(words: Sequence[str], system: str) -> int:
    from calc import capability
    from calc.machines import lists

    paths = [word for word in words if "=" not in word]
    if len(paths) != 1:
        raise search.BadInputs({"": "Name one file: the list of tractors."})
    path = Path(paths[0])
    job = _typed([word for word in words if "=" in word])
    sheets, problems = capability.from_text(lists.read_text(path), job, paths[0], system)
    for problem in problems:
        print(problem, file=sys.stderr)
    print("\n\n".join(capability.as_text(sheet, system) for sheet in sheets))
    return BAD_INPUT if problems else 0


def _read(message: str, system: str, *, as_json: bool) -> int:
    from calc import reading

    found = reading.data(reading.read(message or sys.stdin.read(), system=system))
    if as_json:
        print(json.dumps(found, indent=2, ensure_ascii=False))
        return 0
    text = found["text"]
    for question in found["questions"]:
        print(f"{question['question']} ({question['worksheet']})")
        for each in question["filled"]:
            words = ", ".join(f"“{text[start:end]}”" for start, end in each["spans"])
            print(f"    {each['name']}={each['text']}    from {words}: {each['why']}")
        for each in question["unclear"]:
            words = ", ".join(f"“{text[start:end]}”" for start, end in each["spans"])
            options = ", ".join(f"{o['name']}={o['text']}" for o in each["options"])
            print(f"    {words} may be {options}")
        missing = ", ".join(each["name"] for each in question["missing"])
        print(f"    not said: {missing or 'nothing'}")
    for start, end in found["lost"]:
        print(f"not understood: “{text[start:end]}”")
    if not found["questions"]:
        print("No question of this site was found in it.")
    return 0 if found["questions"] else BAD_INPUT


def _matrix(words: Sequence[str], workers: int, out: Path | None) -> int:
    from concurrent.futures import ProcessPoolExecutor
    from contextlib import nullcontext

    from calc import matrix
    from calc.machines import lists
    from calc.matrix import file

    paths = [word for word in words if "=" not in word]
    job = _typed([word for word in words if "=" in word])
    if len(paths) != 2:
        raise search.BadInputs({"": "Name two files: the tractors and the implements."})
    matrix.check(job)
    texts = [lists.read_text(Path(path)) for path in paths]
    tractors, implements, problems = matrix.read(texts[0], texts[1], (paths[0], paths[1]))
    for problem in problems:
        print(problem, file=sys.stderr)

    def say(done: int) -> None:
        if done:
            print(f"{done:,} pairings stand already; going on.", file=sys.stderr)

    with ProcessPoolExecutor(workers) if workers > 1 else nullcontext() as executor:
        if out is None:
            sys.stdout.write(matrix.HEADING)
            pairings = matrix.stream(tractors, implements, "us", job, executor)
            sys.stdout.writelines(matrix.csv_lines(pairings))
        else:
            try:
                file.write(out, tractors, implements, "us", job, executor, say)
            except OSError as error:
                raise InputError(f"{out} can't be written: {error.strerror}.") from None
    return BAD_INPUT if problems else 0


if __name__ == "__main__":
    sys.exit(run())
