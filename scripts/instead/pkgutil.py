"""Stands in for pkgutil: the modules of a folder, packed or not, and the files beside them."""

import os
from collections import namedtuple
from importlib import import_module
from zipimport import ZipImportError, _zip_directory_cache, zipimporter

ModuleInfo = namedtuple("ModuleInfo", "module_finder name ispkg")


def _files(folder):
    """Return the importer of a packed folder and its files, two levels deep at least."""
    try:
        importer = zipimporter(folder)
    except ZipImportError:
        inside = [entry for entry in os.scandir(folder) if entry.is_dir()]
        deeper = [f"{each.name}/{file}" for each in inside for file in os.listdir(each)]
        return None, os.listdir(folder) + deeper
    start = importer.prefix
    packed = _zip_directory_cache[importer.archive]
    return importer, [name[len(start) :] for name in packed if name.startswith(start)]


def iter_modules(path, prefix=""):
    """Give the modules and packages of each folder, by name."""
    for folder in path:
        importer, files = _files(folder)
        found = {}
        for file in files:
            name, *inside = file.split("/")
            if len(inside) == 1 and inside[0].startswith("__init__.py"):
                found[name] = True
            elif not inside and name.endswith((".py", ".pyc")) and name[:9] != "__init__.":
                found.setdefault(name.partition(".")[0], False)
        for name in sorted(found):
            yield ModuleInfo(importer, prefix + name, found[name])


def get_data(package, resource):
    """Return the content of a file of a package."""
    module = import_module(package)
    folder = module.__file__.rpartition("/")[0]
    return module.__spec__.loader.get_data(f"{folder}/{resource}")
