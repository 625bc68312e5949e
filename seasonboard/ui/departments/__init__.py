"""Departments: how is each client doing?"""
