#!/usr/bin/env python3
"""Sets Boxwright up, in the folder where this file lies, and runs it. Needs only Python.

This file is read by whatever Python someone has, so that an old one gets a sentence
and not a syntax error: no f-strings, no annotations, nothing but ASCII. It speaks plain
English, as the catalogues of messages can only be read once their reader is installed.

Everything installed lands in .venv beside this file. What is there is known by stamps,
written last: a set-up that was broken off leaves none and is made anew.

Length: one file, as what an old Python cannot read must not be imported before it is told.
"""

import errno
import hashlib
import os
import shutil
import subprocess
import sys
import time

USAGE = """\
python3 go.py                   set up, then check and print the demo game
python3 go.py test [OPTIONS]    set up what the tests need too, and run them (OPTIONS: pytest's)
python3 go.py -- COMMAND ...    run one command of Boxwright; `-- --help` lists them
"""

DEMO = "examples/tide-mill"
DEMO_STEPS = (
    ("build", DEMO, "--seed", "7", "--groups", "2"),
    ("check", DEMO),
    ("print", DEMO, "--out", "out"),
)

OLDEST = (3, 11)
HERE = os.path.dirname(os.path.realpath(__file__))
LOCKS = ("run", "test")  # requirements/NAME.lock; test holds all of run, and more
BUSY = (errno.EAGAIN, errno.EACCES, errno.EDEADLK)

# Settings of the user's that would send packages or imports elsewhere. Where packages
# come from (index, proxy, certificates, find-links) stays the user's own choice.
CLEARED = (
    "PIP_PREFIX", "PIP_REQUIRE_VIRTUALENV", "PIP_ROOT", "PIP_TARGET", "PYTHONHOME", "PYTHONPATH",
    "PYTHONPLATLIBDIR", "PYTHONSTARTUP", "VIRTUAL_ENV", "__PYVENV_LAUNCHER__",
    "PYTHONDONTWRITEBYTECODE",  # else each command compiles hundreds of files anew
)  # fmt: skip

STARTED_AS = "BOXWRIGHT_STARTED_AS"  # what messages show before a command to type

# What pip prints when something foreseeable went wrong; the first that fits is told.
PIP_TROUBLES = (
    (
        ("No space left on device", "There is not enough space on the disk"),
        "the disk is full.",
        "Make room (about 1 GB), then type the same again.",
    ),
    (
        ("CERTIFICATE_VERIFY_FAILED",),
        "the package index showed a certificate that is not trusted here (a school's filter?).",
        "Ask for that certificate's file, then type pip config set global.cert FILE",
    ),
    (
        ("NewConnectionError", "ConnectTimeoutError", "ReadTimeoutError", "ProxyError",
         "Connection reset", "Connection refused", "RemoteDisconnected", "getaddrinfo failed",
         "Network is unreachable", "Name or service not known"),
        "the package index could not be reached.",
        "Connect to the internet and type the same again. Or: pip config set global.proxy ADDRESS",
    ),
    (
        ("DO NOT MATCH THE HASHES",),
        "a package is not the one that was tested: its checksum differs.",
        "Type the same again. If it stays, ask whoever runs your package index.",
    ),
    (
        ("No matching distribution found",),
        "one package was not found ready-made for this Python on this kind of machine.",
        "Start go.py with a 64-bit Python 3.11, 3.12 or 3.13; or see that pip finds its index.",
    ),
)  # fmt: skip


class Trouble(Exception):  # noqa: N818 - the machine's, not an error of ours
    """Something foreseeable went wrong: what, why, and what to type or do."""

    def __init__(self, what, why, remedy):
        Exception.__init__(self, what)
        self.what, self.why, self.remedy = what, why, remedy

    def text(self):
        """The lines that a person reads."""
        return "%s\n  Why:  %s\n  Next: %s\n" % (self.what, self.why, self.remedy)


class System(object):
    """What differs between machines; tests make other ones than the one at hand."""

    def __init__(self, name=os.name, platform=sys.platform, root=None, debian=None, python=None):
        self.windows = name == "nt"
        self.python = python or ("py" if self.windows else os.path.basename(sys.executable))
        self.mac = platform == "darwin"
        self.root = (hasattr(os, "geteuid") and os.geteuid() == 0) if root is None else root
        self.debian = os.path.exists("/etc/debian_version") if debian is None else debian

    def start(self, rest=""):
        """How this file is started here, as one would type it."""
        return ("%s go.py %s" % (self.python, rest)).strip()

    def apt(self, packages):
        """The line that installs Debian's packages."""
        return ("" if self.root else "sudo ") + "apt-get install -y " + " ".join(packages)


def tell(text, stream=None):
    """Print, whatever the terminal's encoding can show."""
    stream = stream or sys.stdout
    try:
        stream.write(text + "\n")
    except UnicodeEncodeError:
        stream.write(text.encode("ascii", "backslashreplace").decode("ascii") + "\n")
    stream.flush()


def note(text):
    """Tell how it goes, beside what a command prints."""
    tell(text, sys.stderr)


# --- is this Python good for it? -------------------------------------------------------


def newer_python(path):
    """The name of a good Python in the folders of `path`, or None."""
    for minor in range(19, OLDEST[1] - 1, -1):
        name = "python3.%d" % minor
        if any(os.access(os.path.join(folder, name), os.X_OK) for folder in path.split(os.pathsep)):
            return name
    return None


def check_version(version, system, path):
    """Refuse a Python that is too old, and name one that is not."""
    if tuple(version[:2]) >= OLDEST:
        return
    newer = newer_python(path)
    if newer:
        remedy = "type %s go.py" % newer
    elif system.windows:
        remedy = "type winget install Python.Python.3.13   and then py -3.13 go.py"
    elif system.mac:
        remedy = "type brew install python@3.13   and then python3.13 go.py"
    else:
        remedy = "Install Python 3.11 or newer from your system's packages, then: python3.11 go.py"
    needed = "%d.%d" % OLDEST
    found = "%d.%d" % tuple(version[:2])
    raise Trouble(
        "Boxwright needs a newer Python.", "it needs %s; this is %s." % (needed, found), remedy
    )


def has_venv():
    """Whether this Python can make virtual environments with pip in them."""
    try:
        import ensurepip  # noqa: F401
        import venv  # noqa: F401
    except ImportError:
        return False
    return True


def check_venv(present, system, version):
    """Refuse where Python came without venv, as on a bare Debian."""
    if present:
        return
    package = "python%d.%d-venv" % tuple(version[:2])
    if system.debian:
        remedy = "type %s" % system.apt([package])
    else:
        remedy = "Install the rest of Python: your system's package for venv, or python.org's."
    raise Trouble("Python is not complete.", "its module venv or ensurepip is missing.", remedy)


def check_folder(here, system):
    """Refuse a folder name in which no virtual environment can work."""
    if not system.windows and ":" in here:
        raise Trouble(
            "Boxwright cannot be set up in %s." % here,
            "a colon in a folder's name parts two folders.",
            "Rename the folder, then type: %s" % system.start(),
        )


# --- what is installed, and what should be ---------------------------------------------


def venv_folder(here):
    """The folder of all that is installed."""
    return os.path.join(here, ".venv")


def venv_python(here, system):
    """The Python in which Boxwright runs."""
    tail = ("Scripts", "python.exe") if system.windows else ("bin", "python")
    return os.path.join(venv_folder(here), *tail)


def site_packages(here):
    """Where that Python looks for packages."""
    import sysconfig

    base = venv_folder(here)
    return sysconfig.get_path("purelib", "venv", {"base": base, "platbase": base})


def read_lock(here, name):
    """One lock file's bytes."""
    try:
        with open(os.path.join(here, "requirements", name + ".lock"), "rb") as file:
            return file.read()
    except IOError as error:
        raise Trouble(
            "requirements/%s.lock cannot be read." % name,
            "%s." % error.strerror,
            "Fetch Boxwright again, all of it, into a new folder.",
        )


def up_to(name):
    """The locks whose packages stand in lock `name`, itself the last."""
    return LOCKS[: LOCKS.index(name) + 1]


def wanted_stamp(here, name):
    """What the stamp must say: any other Python, lock or folder gives another."""
    digest = hashlib.sha256()
    for lock in up_to(name):
        digest.update(hashlib.sha256(read_lock(here, lock)).digest())
    about = (sys.version, getattr(sys, "base_prefix", sys.prefix), here)
    digest.update("\0".join(about).encode("utf-8", "surrogateescape"))
    return digest.hexdigest()


def stamp_file(here, name):
    """Where the stamp of one lock lies."""
    return os.path.join(venv_folder(here), "boxwright-%s.stamp" % name)


def read_stamp(here, name):
    """What the stamp says; empty where there is none."""
    try:
        with open(stamp_file(here, name)) as file:
            return file.read().strip()
    except (IOError, ValueError):
        return ""


def is_ready(here, name, system):
    """Whether all of one lock is installed as it should be."""
    if not os.path.exists(venv_python(here, system)):
        return False
    return all(read_stamp(here, lock) == wanted_stamp(here, lock) for lock in up_to(name))


# --- setting up ------------------------------------------------------------------------


def child_environment(environment):
    """The environment for everything started from here."""
    clean = dict((key, value) for key, value in environment.items() if key not in CLEARED)
    # A pip that checks hashes refuses constraints, which a settings file may hold as well
    # as a variable. An empty variable would not overrule the file; an empty file does.
    clean["PIP_CONSTRAINT"] = os.devnull
    clean["PIP_BUILD_CONSTRAINT"] = os.devnull
    clean["PIP_USER"] = "0"
    clean["PIP_DISABLE_PIP_VERSION_CHECK"] = "1"
    clean["PIP_NO_INPUT"] = "1"
    clean.setdefault("PIP_ONLY_BINARY", ":all:")  # no compiler needed; nothing runs on install
    clean.setdefault("PYTHONUTF8", "1")
    return clean


def base_python():
    """The Python outside of any virtual environment: it stays when .venv is removed."""
    return getattr(sys, "_base_executable", None) or sys.executable


def remove_venv(here):
    """Remove .venv, if it is one."""
    folder = venv_folder(here)
    if not os.path.lexists(folder):
        return
    ours = os.path.isfile(os.path.join(folder, "pyvenv.cfg")) or not os.listdir(folder)
    if os.path.islink(folder) or not ours:
        raise Trouble(
            "There is something else at %s." % folder,
            "Boxwright installs what it needs there, and removes nothing that it does not know.",
            "Move it away, then type the same again.",
        )
    # The mark goes last, so that a removal broken off can be taken up again.
    for name in sorted(os.listdir(folder), key="pyvenv.cfg".__eq__):
        path = os.path.join(folder, name)
        if os.path.isdir(path) and not os.path.islink(path):
            shutil.rmtree(path)
        else:
            os.remove(path)


def make_venv(here, system, environment):
    """Make an empty virtual environment."""
    check_venv(has_venv(), system, sys.version_info)
    remove_venv(here)
    command = [base_python(), "-m", "venv", venv_folder(here)]
    code, output = run_quietly(command, here, environment)
    if code:
        raise pip_trouble(output, system)


def install(here, name, system, environment):
    """Install one lock into the virtual environment, and Boxwright's own source."""
    # Compiled when first imported, which spares the time for all that never is.
    options = ["--no-compile", "--require-hashes", "--no-deps", "-r", "requirements/%s.lock" % name]
    command = [venv_python(here, system), "-m", "pip", "install"] + options
    code, output = run_quietly(command, here, environment)
    if code:
        raise pip_trouble(output, system)
    check_landed(here, name)
    site = site_packages(here)
    # Relative, hence ASCII: Pythons differ in the encoding that they read such a file in.
    with open(os.path.join(site, "boxwright-source.pth"), "w") as file:
        file.write(os.path.relpath(os.path.join(here, "src"), site) + "\n")


def check_landed(here, name):
    """Refuse where pip was told to install to another place."""
    first = read_lock(here, name).decode("utf-8").split("==")[0].strip()
    wanted = first.replace("-", "_").lower() + "-"
    if not any(found.lower().startswith(wanted) for found in os.listdir(site_packages(here))):
        raise Trouble(
            "The packages landed elsewhere.",
            "pip's settings name a target or a prefix.",
            "type pip config list   and then pip config unset global.target (or prefix)",
        )


def run_quietly(command, folder, environment):
    """Run to the end; (exit code, all that it printed). Counts packages on a terminal."""
    process = subprocess.Popen(
        command, cwd=folder, env=environment, stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
        close_fds=False,  # it holds the lock too: see wait_for_lock
    )  # fmt: skip
    lines, packages = [], 0
    with process:
        for raw in process.stdout:
            lines.append(raw.decode("utf-8", "replace"))
            if lines[-1].startswith("Collecting ") and sys.stderr.isatty():
                packages += 1
                sys.stderr.write("  %d packages\r" % packages)
                sys.stderr.flush()
    return process.returncode, "".join(lines)


def pip_trouble(output, system):
    """The Trouble that fits what pip, or venv, printed before it failed."""
    for signs, why, remedy in PIP_TROUBLES:
        if any(sign in output for sign in signs):
            return Trouble("Boxwright could not be installed.", why, remedy)
    last = "\n    ".join(output.strip().splitlines()[-12:])
    return Trouble(
        "Boxwright could not be installed.",
        "these are the last lines:\n    %s" % last,
        "Type the same again: %s" % system.start(),
    )


def os_trouble(error, here, system):
    """The Trouble that fits what the system refused."""
    place = getattr(error, "filename", None) or here
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        why, remedy = "the disk is full.", "Make room (about 1 GB), then type the same again."
    elif error.errno in (errno.EACCES, errno.EPERM, errno.EROFS):
        why = "%s cannot be written." % place
        remedy = "Copy the whole folder to where you may write, and start go.py there."
        if system.windows:
            remedy = "Close what runs from .venv. If nothing does: " + remedy
    else:
        why = "%s (%s)." % (error.strerror or error, place)
        remedy = "Put that right, then type the same again."
    return Trouble("Boxwright could not be set up.", why, remedy)


def lock_now(file, system):
    """Take the lock if nobody holds it; whether it was taken."""
    try:
        if system.windows:
            import msvcrt

            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (IOError, OSError) as error:
        # A file system without locks: better unguarded than not at all.
        return error.errno not in BUSY
    return True


def wait_for_lock(file, system):
    """Wait until no other start sets up here.

    The system lets go of a lock when the last holder ends. What this start runs holds it
    too, so that nobody begins while a killed start's pip still writes.
    """
    os.set_inheritable(file.fileno(), not system.windows)
    if lock_now(file, system):
        return
    note("Another start of go.py is setting up in this folder. Waiting for it ...")
    while not lock_now(file, system):
        time.sleep(0.2)


def set_up(here, name, system, environment):
    """Make what one lock names be installed; at once where it already is."""
    if is_ready(here, name, system):
        return
    check_folder(here, system)
    with open(os.path.join(here, ".venv.lock"), "a") as file:
        wait_for_lock(file, system)
        if not is_ready(here, name, system):
            set_up_alone(here, name, system, environment)


def set_up_alone(here, name, system, environment):
    """Set up while nobody else does: on top of what fits, else from nothing."""
    note("Setting up in %s. That takes a minute or two, once." % venv_folder(here))
    began = time.time()
    fits = is_ready(here, "run", system) and not read_stamp(here, name)
    if fits:
        os.remove(stamp_file(here, "run"))
    else:
        make_venv(here, system, environment)
    install(here, name, system, environment)
    for lock in up_to(name):
        with open(stamp_file(here, lock), "w") as file:
            file.write(wanted_stamp(here, lock) + "\n")
    note("Set up in %.0f s." % (time.time() - began))


# --- what tests need from the system ---------------------------------------------------

BROWSERS = ("chromium", "chromium-browser", "google-chrome")
MAC_BROWSERS = (
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
)
WINDOWS_BROWSERS = (r"Google\Chrome\Application\chrome.exe", r"Chromium\Application\chrome.exe")


def browser_present(system, environment):
    """The Chromium, or its like, that tests of pages can drive; None if there is none."""
    if system.windows:
        roots = [environment.get(key) for key in ("PROGRAMFILES", "LOCALAPPDATA")]
        files = [os.path.join(root, tail) for root in roots if root for tail in WINDOWS_BROWSERS]
    else:
        folders = environment.get("PATH", os.defpath).split(os.pathsep)
        files = [os.path.join(folder, name) for folder in folders for name in BROWSERS]
        files += MAC_BROWSERS if system.mac else ()
    return next((file for file in files if os.access(file, os.X_OK)), None)


def apt_install(packages, environment):
    """Install Debian's packages, as root. What then is missing, the caller sees."""
    quiet = dict(environment, DEBIAN_FRONTEND="noninteractive")
    note("Installing Debian's %s for the tests ..." % ", ".join(packages))
    for command in (["update"], ["install", "-y", "--no-install-recommends"] + packages):
        subprocess.call(
            ["apt-get", "-q", "-q"] + command, env=quiet, stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
        )  # fmt: skip


def ensure_browser(system, environment, installer=apt_install):
    """Make a browser be there for tests of pages, or say what to type. Never skips them."""
    if browser_present(system, environment):
        return
    if system.debian and system.root:
        installer(["chromium"], environment)
    if browser_present(system, environment):
        return
    if system.debian:
        remedy = "type " + system.apt(["chromium"])
    elif system.windows:
        remedy = "type winget install Google.Chrome"
    elif system.mac:
        remedy = "type brew install --cask google-chrome"
    else:
        remedy = "Install chromium from your system's packages."
    raise Trouble("The tests cannot run.", "those of the pages need the browser Chromium.", remedy)


# --- running ---------------------------------------------------------------------------


def exit_code(code):
    """A process's end as shells count it: 128 and the signal's number for one that was killed."""
    return 128 - code if code < 0 else code


def run(command, environment, folder=None):
    """Run with this terminal, to the end; its exit code. Ctrl-C is the command's to answer."""
    process = subprocess.Popen(command, env=environment, cwd=folder)
    try:
        return exit_code(process.wait())
    except KeyboardInterrupt:
        process.wait()
        return 130


def hand_over(command, environment, system, folder=None):
    """Become the command, where a system can; else run it. Costs nothing beyond it."""
    if system.windows:
        return run(command, environment, folder)
    if folder:
        os.chdir(folder)
    sys.stdout.flush()
    return os.execve(command[0], command, environment)


def boxwright(here, system, arguments):
    """The command line of one command of Boxwright."""
    # -P: whatever lies in the folder where someone works, it is not imported.
    return [venv_python(here, system), "-P", "-m", "boxwright"] + list(arguments)


def demo(here, system, environment):
    """The main job on the demo game: build it, check it, print it."""
    set_up(here, "run", system, environment)
    environment[STARTED_AS] = system.start("--")
    for step in DEMO_STEPS:
        tell("\n$ %s %s" % (system.start("--"), " ".join(step)))
        code = run(boxwright(here, system, step), environment, here)
        if code:
            return code
    tell("\nThe demo's print-outs lie in %s. Next:" % os.path.join(here, "out"))
    tell("  %-32s all commands" % system.start("-- --help"))
    tell("  %-32s your own game, in place of the demo" % system.start("-- check FOLDER"))
    tell("  %-32s the whole job in your browser: start here" % system.start("-- studio"))
    return 0


def run_tests(here, system, environment, arguments):
    """The whole test suite, or what pytest's options choose of it."""
    set_up(here, "test", system, environment)
    if os.path.isdir(os.path.join(here, "tests", "web")):
        ensure_browser(system, environment)
    command = [venv_python(here, system), "-m", "pytest"] + arguments
    return hand_over(command, environment, system, here)


def start(here, system, environment, arguments):
    """Do what the command line says; the exit code."""
    check_version(sys.version_info, system, environment.get("PATH", os.defpath))
    environment = child_environment(environment)
    if not arguments:
        return demo(here, system, environment)
    if arguments[0] == "test":
        return run_tests(here, system, environment, arguments[1:])
    if arguments[0] == "--":
        set_up(here, "run", system, environment)
        environment[STARTED_AS] = system.start("--")
        return hand_over(boxwright(here, system, arguments[1:]), environment, system)
    asked = arguments[0] in ("-h", "--help")
    tell(USAGE.rstrip(), sys.stdout if asked else sys.stderr)
    return 0 if asked else 2


def main(arguments):
    """Do it, and put into words what went wrong."""
    system = System()
    try:
        return start(HERE, system, dict(os.environ), arguments)
    except Trouble as trouble:
        tell(trouble.text(), sys.stderr)
    except EnvironmentError as error:
        tell(os_trouble(error, HERE, system).text(), sys.stderr)
    except KeyboardInterrupt:
        return 130
    return 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
