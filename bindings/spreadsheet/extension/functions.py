# SPDX-License-Identifier: GPL-3.0-or-later
"""The functions of Coolbite as an add-in of Calc: hands the arguments of a cell to cells.py, which
stands in pythonpath/ beside this file, with the package coolbite."""
import coolbite_cells
import unohelper
from com.sun.star.lang import XServiceInfo
from coolbitesheet import XFunctions

SERVICES = ("coolbitesheet.Functions", "com.sun.star.sheet.AddIn")


class Functions(unohelper.Base, XFunctions, XServiceInfo):
    """Names and arguments as in functions.idl; their descriptions are in functions.xcu."""

    def __init__(self, context):
        self.context = context

    def value(self, what, words):
        return coolbite_cells.value(what, *words)

    def verdict(self, words):
        return coolbite_cells.verdict(*words)

    def choice(self, what, words):
        return coolbite_cells.choice(what, *words)

    def getImplementationName(self):
        return SERVICES[0]

    def supportsService(self, name):
        return name in SERVICES

    def getSupportedServiceNames(self):
        return SERVICES


g_ImplementationHelper = unohelper.ImplementationHelper()
g_ImplementationHelper.addImplementation(Functions, SERVICES[0], SERVICES)
